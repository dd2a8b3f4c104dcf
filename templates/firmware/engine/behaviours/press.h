/*
 * ACTION_PRESS: a usage of the keyboard page and modifiers, down for as long as the key is.
 *
 * low byte: the usage, or 0; high byte: the modifiers' bits.
 */
#ifndef BEHAVIOUR_PRESS_H
#define BEHAVIOUR_PRESS_H

#include <stdint.h>

#include "report.h"

#if HAS_PRESS

static inline void press_down(uint8_t usage, uint8_t modifiers)
{
    report_press(usage, modifiers);
}

/* Usage 0 is none, and so are no modifiers: what other keys still hold has been taken out. */
static inline void press_up(uint8_t usage, uint8_t modifiers)
{
    report_lift(usage, modifiers);
}

#endif

#endif
