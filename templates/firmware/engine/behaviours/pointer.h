/*
 * ACTION_POINTER: a button, or a way in which the pointer or a wheel moves, for as long as the key is down.
 *
 * low byte: its number, which is never 0.
 */
#ifndef BEHAVIOUR_POINTER_H
#define BEHAVIOUR_POINTER_H

#include <stdbool.h>
#include <stdint.h>

#include "pointer_report.h"
#include "sizes.h"

#if HAS_POINTER

static inline void pointer_down(uint8_t number)
{
    pointer_press(number);
}

/* Whether a `once` key has waited for it: not for a way of the pointer itself. */
static inline bool pointer_types(uint8_t number)
{
    return number < POINTER_FIRST_WAY || number >= POINTER_FIRST_WAY + 4;
}

/* Number 0 is none: another key still holds it. */
static inline void pointer_up(uint8_t number)
{
    pointer_lift(number);
}

#endif

#endif
