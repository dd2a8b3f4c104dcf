/*
 * ACTION_TAP_HOLD: a key with two meanings. Which one it is is decided when its press is the oldest
 * event, from what is known of the events after it and of time. Until then it and all of them wait, except
 * the release of a key that only types and was down before: that goes first, or a host would repeat it.
 *
 * operand: its place in tap_holds.
 */
#ifndef BEHAVIOUR_TAP_HOLD_H
#define BEHAVIOUR_TAP_HOLD_H

#include <stdint.h>

#include "events.h"
#include "sizes.h"

#if HAS_TAP_HOLD

/* No press is undecided. */
void tap_hold_start(void);

/* What the press does of a key with action `cell`; SEE_THROUGH while that is not decided. */
action_number tap_hold_down(action_number cell, uint16_t place, const struct event *press);

/* After it was not decided: the place of a release that goes first, 0 if there is none. */
uint8_t tap_hold_lets_go(void);

#endif

#endif
