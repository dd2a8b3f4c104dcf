/*
 * What a key types one thing after the other: its strokes lie in turn_strokes, from its operand on.
 *
 * As it begins, every key that holds something besides modifiers is over, and what is down goes up. Each
 * stroke then goes down and up, a report each, PACE_MS after the one before and not before the host has
 * taken that. Modifiers that keys hold come back at the end. Until then no event is done, but those of the
 * key itself: pressed again, it stops. So does an event for which there is hardly room left.
 */
#ifndef TURN_H
#define TURN_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_IN_TURN

/* Nothing is typed. */
void turn_start(void);

/* A key that does action `done` types what begins at a place of turn_strokes. Nothing else is down. */
void turn_begin(key_number key, action_number done, uint16_t first);

/* Whether something is typed; then, by which key, and what that does. */
bool turn_runs(void);
key_number turn_key(void);
action_number turn_done(void);

/* Type and wait no more, but let go of what is down. */
void turn_stop(void);

/* The host does not listen: all is over. */
void turn_drop(void);

/* See what time it is. Once a scan at least. */
void turn_watch(uint16_t now_ms);

/* Do the next thing; false if it is not time for it. */
bool turn_next(void);

#endif

#endif
