/*
 * ACTION_ONCE_MODIFIERS: modifiers for the next key only, and for as long as the key is down; see once.h.
 *
 * high byte: the modifiers' bits.
 */
#ifndef BEHAVIOUR_ONCE_MODIFIERS_H
#define BEHAVIOUR_ONCE_MODIFIERS_H

#include "once.h"

#if HAS_ONCE_MODIFIERS

static inline void once_modifiers_down(uint8_t modifiers)
{
    once_press(0, modifiers);
}

/* Those that another such key still holds have been taken out. */
static inline void once_modifiers_up(uint8_t modifiers, uint16_t at_ms)
{
    once_release(0, modifiers, at_ms);
}

#endif

#endif
