/*
 * ACTION_LATCH_LAYER: a layer that a press turns on, and the next press off again. Its release does
 * nothing.
 *
 * low byte: the layer's number.
 */
#ifndef BEHAVIOUR_LATCH_LAYER_H
#define BEHAVIOUR_LATCH_LAYER_H

#include <stdint.h>

#include "layers.h"

#if HAS_LATCH_LAYER

static inline void latch_layer_down(uint8_t layer)
{
    layers_latch(layer);
}

#endif

#endif
