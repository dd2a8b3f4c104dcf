/*
 * Sets of layers, a bit each: those that keys hold, those that presses turn on and off.
 */
#include "layers.h"

#include "once.h"
#include "port.h"
#include "tables.h"

#if HAS_HOLD_LAYER
static layer_set held;
#endif
#if HAS_LATCH_LAYER
static layer_set latched;
#endif
#if HAS_CHANGE_BASE
static uint8_t lowest; /* lies on the base layer; 0: nothing does */
#endif

#if HAS_REMEMBERED_BASE
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
#endif

#if HAS_LAYERS
void layers_start(void)
{
#if HAS_HOLD_LAYER
    held = 0;
#endif
#if HAS_LATCH_LAYER
    latched = 0;
#endif
#if HAS_REMEMBERED_BASE
    lowest = remembered();
    to_keep = 0;
#elif HAS_CHANGE_BASE
    lowest = 0;
#endif
}
#endif

#if HAS_HOLD_LAYER
void layers_hold(uint8_t layer)
{
    held |= layers_bit(layer);
}

void layers_let_go(uint8_t layer)
{
    held &= (layer_set)~layers_bit(layer);
}
#endif

#if HAS_LATCH_LAYER
void layers_latch(uint8_t layer)
{
    latched ^= layers_bit(layer);
}
#endif

#if HAS_UNLATCH_LAYERS
void layers_unlatch(void)
{
#if HAS_LATCH_LAYER
    latched = 0;
#endif
#if HAS_ONCE_LAYER
    once_unlatch();
#endif
}
#endif

#if HAS_CHANGE_BASE
void layers_change_base(uint8_t layer, uint8_t number)
{
    lowest = layer;
#if HAS_REMEMBERED_BASE
    base = number;
    to_keep = KEPT_BYTES;
#else
    (void)number;
#endif
}
#endif

#if HAS_REMEMBERED_BASE
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
#endif

#if HAS_LAYERS
/* Every layer that is on. */
#if HAS_JOINT_LAYERS
/*
 * Also those that are on because others are. The lowest one, which those may need, is not among them, since
 * it does not lie at its own place.
 */
#endif
static layer_set layers_on(void)
{
    layer_set on = 0;

#if HAS_HOLD_LAYER
    on |= held;
#endif
#if HAS_LATCH_LAYER
    on |= latched;
#endif
#if HAS_ONCE_LAYER
    on |= once_layers();
#endif
#if HAS_JOINT_LAYERS
    layer_set beneath = 0;
#if HAS_CHANGE_BASE
    beneath = layers_bit(lowest);
#endif
    for (FLASH const struct joint_layer *joint = joint_layers; joint->needs != 0; joint++) {
        if (((on | beneath) & joint->needs) == joint->needs) {
            on |= layers_bit(joint->layer);
        }
    }
#endif
    return on;
}
#endif

#if HAS_LAYER_LIGHTS
layer_set layers_lying(void)
{
#if HAS_CHANGE_BASE
    return layers_on() | layers_bit(lowest);
#else
    return layers_on();
#endif
}
#endif

#if HAS_TOGETHER
enum { OFF = 0, ON_BASE = 1, ON_LOWEST = 2 }; /* heights; that of another layer is its number after those */

uint8_t layers_height(uint8_t layer)
{
    if (layer == 0) {
        return ON_BASE;
    }
#if HAS_LAYERS
    if ((layers_on() & layers_bit(layer)) != 0) {
        return (uint8_t)(ON_LOWEST + layer);
    }
#endif
#if HAS_CHANGE_BASE
    if (layer == lowest) {
        return ON_LOWEST;
    }
#endif
    return OFF;
}

uint8_t layers_height_of_cell(key_number key)
{
    uint8_t height = ON_BASE;
#if HAS_LAYERS
    FLASH const action_number *cell = layer_cells + key;
    uint8_t above = ON_LOWEST;

#if HAS_CHANGE_BASE
    if (lowest != 0 && cell[lowest * KEYS] != SEE_THROUGH) {
        height = ON_LOWEST;
    }
#endif
    for (layer_set on = (layer_set)(layers_on() >> 1); on != 0; on = (layer_set)(on >> 1)) {
        cell += KEYS;
        above++;
        if ((on & 1) != 0 && *cell != SEE_THROUGH) {
            height = above;
        }
    }
#else
    (void)key;
#endif
    return height;
}
#endif

action_number layers_find(key_number key)
{
    FLASH const action_number *cell = layer_cells + key;
    action_number found = *cell; /* the base layer's */

#if HAS_CHANGE_BASE
    if (cell[lowest * KEYS] != SEE_THROUGH) {
        found = cell[lowest * KEYS];
    }
#endif

#if HAS_LAYERS
    /* Upwards, so that one addition steps to the next layer and the last one found lies on top. */
    for (layer_set on = (layer_set)(layers_on() >> 1); on != 0; on = (layer_set)(on >> 1)) {
        cell += KEYS;
        if ((on & 1) != 0 && *cell != SEE_THROUGH) {
            found = *cell;
        }
    }
#endif
    return found;
}
