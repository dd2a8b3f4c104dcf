/*
 * ACTION_UNLATCH_LAYERS: ends every layer that presses have left on. Its release does nothing.
 */
#ifndef BEHAVIOUR_UNLATCH_LAYERS_H
#define BEHAVIOUR_UNLATCH_LAYERS_H

#include "layers.h"

#if HAS_UNLATCH_LAYERS

static inline void unlatch_layers_down(void)
{
    layers_unlatch();
}

#endif

#endif
