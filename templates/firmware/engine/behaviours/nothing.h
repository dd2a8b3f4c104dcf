/*
 * ACTION_NOTHING: a key that is dead on purpose, pressed or released.
 */
#ifndef BEHAVIOUR_NOTHING_H
#define BEHAVIOUR_NOTHING_H

#include "sizes.h"

#if HAS_NOTHING

static inline void nothing_down(void)
{
}

#endif

#endif
