/*
 * ACTION_ONCE_LAYER: a layer for the next key only, and for as long as the key is down; see once.h.
 *
 * low byte: the layer's number.
 */
#ifndef BEHAVIOUR_ONCE_LAYER_H
#define BEHAVIOUR_ONCE_LAYER_H

#include "layers.h"
#include "once.h"

#if HAS_ONCE_LAYER

static inline void once_layer_down(uint8_t layer)
{
    once_press(layers_bit(layer), 0);
}

/* Layer 0 is none: another key still holds it. */
static inline void once_layer_up(uint8_t layer, uint16_t at_ms)
{
    if (layer != 0) {
        once_release(layers_bit(layer), 0, at_ms);
    }
}

#endif

#endif
