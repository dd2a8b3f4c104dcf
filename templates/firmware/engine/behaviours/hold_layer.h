/*
 * ACTION_HOLD_LAYER: a layer that is on for as long as the key is down.
 *
 * low byte: the layer's number.
 */
#ifndef BEHAVIOUR_HOLD_LAYER_H
#define BEHAVIOUR_HOLD_LAYER_H

#include <stdint.h>

#include "layers.h"

#if HAS_HOLD_LAYER

static inline void hold_layer_down(uint8_t layer)
{
    layers_hold(layer);
}

/* Layer 0 is none to let go of, since the base layer is always on: another key still holds it. */
static inline void hold_layer_up(uint8_t layer)
{
    layers_let_go(layer);
}

#endif

#endif
