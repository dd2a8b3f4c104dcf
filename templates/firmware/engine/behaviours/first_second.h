/*
 * ACTION_FIRST_SECOND: a key that means something else when it is pressed again soon. What a press means is
 * decided when it is the oldest event, from what is known of the events after it and of time. Until then it
 * and all of them wait, except the release of a key that only types and was down before: that goes first. A
 * press that another one of the key follows soon only counts, and does nothing.
 *
 * operand: its place in first_seconds.
 */
#ifndef BEHAVIOUR_FIRST_SECOND_H
#define BEHAVIOUR_FIRST_SECOND_H

#include <stdbool.h>
#include <stdint.h>

#include "events.h"
#include "sizes.h"

#if HAS_FIRST_SECOND

/* No press has counted. */
void first_second_start(void);

/* The action of the key that goes down next, `cell` unless presses of it have counted: then what those found. */
action_number first_second_cell(action_number cell);

#if HAS_TOGETHER
/* Whether presses have counted, so that the next one is the same key's. */
bool first_second_goes_on(void);
#endif

/* What the press does of a key with action `cell`: that itself if it counts, SEE_THROUGH if undecided. */
action_number first_second_down(action_number cell, uint16_t place, const struct event *press);

/* After it was not decided: the place of a release that goes first, 0 if there is none. */
uint8_t first_second_lets_go(void);

/* A key with action `cell` has gone down, and does `found`. */
void first_second_pressed(action_number cell, action_number found);

#endif

#endif
