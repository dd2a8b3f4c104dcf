/*
 * Which layers are on, and what a key does on them.
 */
#ifndef LAYERS_H
#define LAYERS_H

#include <stdint.h>

#include "sizes.h"

#if HAS_LAYERS
/* Only the base layer is on. */
void layers_start(void);
#endif

#if HAS_HOLD_LAYER
/* A layer is on while it is held; the base layer always is. */
void layers_hold(uint8_t layer);
void layers_let_go(uint8_t layer);
#endif

#if HAS_LATCH_LAYER
/* A layer is on while it is latched; this latches it, or ends that. */
void layers_latch(uint8_t layer);
#endif

#if HAS_UNLATCH_LAYERS
/* Only the layers stay on that keys hold, and the base. */
void layers_unlatch(void);
#endif

#if HAS_CHANGE_BASE
/* Lay a layer on the base layer, below all others; layer 0 for none. `base` is its number among those. */
void layers_change_base(uint8_t layer, uint8_t base);
#endif

#if HAS_REMEMBERED_BASE
/* Write what is to outlast power, as far as that goes without waiting. Once a scan. */
void layers_keep(void);
#endif

#if HAS_LAYERS
static inline layer_set layers_bit(uint8_t layer)
{
    return (layer_set)((layer_set)1 << layer);
}
#endif

#if HAS_LAYER_LIGHTS
/* The layers that are on, and what lies on the base layer. */
layer_set layers_lying(void);
#endif

#if HAS_TOGETHER
/* How high a layer lies among those that are on, from 1 for the base layer; 0 if it is off. */
uint8_t layers_height(uint8_t layer);

/* How high the cell of `key` lies that layers_find finds. */
uint8_t layers_height_of_cell(key_number key);
#endif

/* The action of `key` on the highest layer that is on and gives it one. */
action_number layers_find(key_number key);

#endif
