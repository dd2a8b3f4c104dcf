/*
 * Knobs: from the contacts that turn with them to steps, and which steps wait to be done.
 *
 * A knob closes two contacts to ground, A and B, a quarter of a cycle apart: turned to the right it goes
 * through neither, A, both, B, and to the left through the same backwards. From one detent to the next, which
 * is a step, lie KNOB_STATES of those. Each change is counted, forwards or backwards, so that a contact which
 * bounces adds up to nothing, and a step is one once all its states are through.
 *
 * Each direction of a knob is a key, after those of the plate: a step presses it and lets it go.
 */
#ifndef KNOBS_H
#define KNOBS_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_KNOBS

/* Every knob is at a detent, and no step waits. */
void knobs_start(void);

/* Read the contacts. Before each of them can have changed twice: also amid what takes long. */
void knobs_look(void);

/* No step waits, and wherever knobs are now is a detent: nobody listens. */
void knobs_forget(void);

/*
 * The next step that waits begins, if one does. Steps in opposite directions have cancelled each other by then.
 * Not while one has begun.
 */
void knobs_begin(void);

/* The key of the step that has begun, or NO_KEY. */
key_number knobs_step(void);

/* It goes on: true if it goes down now; else it goes up, and is over. */
bool knobs_go_down(void);

#endif

#endif
