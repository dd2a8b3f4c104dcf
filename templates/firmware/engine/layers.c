/*
 * Sets of layers, a bit each: those that keys hold, those that presses turn on and off.
 */
#include "layers.h"

#include "once.h"
#include "port.h"
#include "tables.h"

static layer_set held;
static layer_set latched;
static uint8_t lowest; /* lies on the base layer; 0: nothing does */

/*
 * What outlasts power is a base's number among the bases, and a mark of it: another image may have as many
 * bases but other layers above them, and where power failed between the two bytes they do not fit.
 */
enum { KEPT_BASE = 0, KEPT_MARK = 1, KEPT_BYTES = 2 };

static uint8_t base;
static uint8_t to_keep; /* bytes that have not been given to the port */

static uint8_t mark_of(uint8_t number)
{
    return BASES_MARK ^ number;
}

static uint8_t remembered(void)
{
    base = port_kept(KEPT_BASE);
    if (port_kept(KEPT_MARK) != mark_of(base)) {
        return 0;
    }
    for (action_number number = 1; number < ACTIONS; number++) {
        FLASH const struct action *action = action_list + number;
        if (action->kind == ACTION_CHANGE_BASE && action->operand >> 8 == base) {
            return (uint8_t)action->operand;
        }
    }
    return 0;
}

void layers_start(void)
{
    held = 0;
    latched = 0;
    lowest = REMEMBER_BASE != 0 ? remembered() : 0;
    to_keep = 0;
}

void layers_hold(uint8_t layer)
{
    held |= layers_bit(layer);
}

void layers_let_go(uint8_t layer)
{
    held &= (layer_set)~layers_bit(layer);
}

void layers_latch(uint8_t layer)
{
    latched ^= layers_bit(layer);
}

void layers_unlatch(void)
{
    latched = 0;
    if (ONCE_KEYS != 0) {
        once_unlatch();
    }
}

void layers_change_base(uint8_t layer, uint8_t number)
{
    lowest = layer;
    if (REMEMBER_BASE != 0) {
        base = number;
        to_keep = KEPT_BYTES;
    }
}

void layers_keep(void)
{
    if (to_keep == 0) {
        return;
    }
    uint8_t place = (uint8_t)(to_keep - 1);
    if (port_keep(place, place == KEPT_MARK ? mark_of(base) : base)) {
        to_keep = place;
    }
}

/*
 * Every layer that is on, and each that is on because others are; without the lowest one, which does not
 * lie at its own place, but which others may need.
 */
static layer_set layers_on(void)
{
    layer_set on = held | latched;

    if (ONCE_KEYS != 0) {
        on |= once_layers();
    }
    if (JOINT_LAYERS != 0) {
        layer_set beneath = BASE_CHANGES != 0 ? layers_bit(lowest) : 0;
        for (FLASH const struct joint_layer *joint = joint_layers; joint->needs != 0; joint++) {
            if (((on | beneath) & joint->needs) == joint->needs) {
                on |= layers_bit(joint->layer);
            }
        }
    }
    return on;
}

action_number layers_find(key_number key)
{
    FLASH const action_number *cell = layer_cells + key;
    action_number found = *cell; /* the base layer's */

    if (BASE_CHANGES != 0 && cell[lowest * KEYS] != SEE_THROUGH) {
        found = cell[lowest * KEYS];
    }

    /* Upwards, so that one addition steps to the next layer and the last one found lies on top. */
    for (layer_set on = (layer_set)(layers_on() >> 1); on != 0; on = (layer_set)(on >> 1)) {
        cell += KEYS;
        if ((on & 1) != 0 && *cell != SEE_THROUGH) {
            found = *cell;
        }
    }
    return found;
}
