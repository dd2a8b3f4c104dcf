/*
 * What keys do when they go down and up.
 */
#ifndef ACTIONS_H
#define ACTIONS_H

#include <stdbool.h>

/* No key is down. */
void actions_start(void);

/*
 * Do the oldest event, which there must be, or one that goes before it, and drop it. False if it cannot be
 * told yet what the oldest means: then nothing was done.
 */
bool actions_next(void);

#if HAS_KNOBS
/* The step of a knob that has begun goes down, or else up; false if there is none. */
bool actions_step_on(void);

/* The same, or the next one that waits begins. */
bool actions_step(void);
#endif

#if HAS_IN_TURN
/* While a key types in turn: do its oldest event, if there is one, whatever is before it. */
bool actions_own_event(void);
#endif

#endif
