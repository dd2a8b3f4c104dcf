/*
 * ACTION_CHANGE_BASE: another layer lies at the bottom, for good. Its release does nothing.
 *
 * low byte: the layer's number, 0 for the base layer alone; high byte: its number among the bases.
 */
#ifndef BEHAVIOUR_CHANGE_BASE_H
#define BEHAVIOUR_CHANGE_BASE_H

#include <stdint.h>

#include "layers.h"
#include "sizes.h"

#if HAS_CHANGE_BASE

static inline void change_base_down(uint8_t layer, uint8_t base)
{
    layers_change_base(layer, base);
}

#endif

#endif
