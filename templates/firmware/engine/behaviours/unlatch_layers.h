/*
 * ACTION_UNLATCH_LAYERS: ends every layer that presses have left on. Its release does nothing.
 */
#ifndef BEHAVIOUR_UNLATCH_LAYERS_H
#define BEHAVIOUR_UNLATCH_LAYERS_H

#include "layers.h"
#include "sizes.h"

static inline void unlatch_layers_down(void)
{
    if (UNLATCH_KEYS != 0) {
        layers_unlatch();
    }
}

#endif
