/*
 * ACTION_TAP_HOLD: a key with two meanings. Which one it is is decided when its press is the oldest
 * event, from what is known of the events after it and of time; until then it and all of them wait.
 *
 * operand: its place in tap_holds.
 */
#ifndef BEHAVIOUR_TAP_HOLD_H
#define BEHAVIOUR_TAP_HOLD_H

#include <stdint.h>

#include "events.h"
#include "sizes.h"

/* No press is undecided. */
void tap_hold_start(void);

/* What the press does; SEE_THROUGH while that is not decided. */
action_number tap_hold_down(uint16_t place, const struct event *press);

#endif
