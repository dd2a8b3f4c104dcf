/*
 * Two sets of layers, a bit each: one that keys hold, one that presses turn on and off.
 */
#include "layers.h"

#include "tables.h"

static layer_set held;
static layer_set latched;

void layers_start(void)
{
    held = 0;
    latched = 0;
}

static layer_set only(uint8_t layer)
{
    return (layer_set)((layer_set)1 << layer);
}

void layers_hold(uint8_t layer)
{
    held |= only(layer);
}

void layers_let_go(uint8_t layer)
{
    held &= (layer_set)~only(layer);
}

void layers_latch(uint8_t layer)
{
    latched ^= only(layer);
}

action_number layers_find(key_number key)
{
    FLASH const action_number *cell = layer_cells + key;
    action_number found = *cell; /* the base layer's */

    /* Upwards, so that one addition steps to the next layer and the last one found lies on top. */
    for (layer_set on = (layer_set)((held | latched) >> 1); on != 0; on = (layer_set)(on >> 1)) {
        cell += KEYS;
        if ((on & 1) != 0 && *cell != SEE_THROUGH) {
            found = *cell;
        }
    }
    return found;
}
