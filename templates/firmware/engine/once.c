#include "once.h"

#include "report.h"

#if HAS_ONCE

struct things {
    layer_set layers;
    uint8_t modifiers;
};

static struct things held;   /* their keys are down                  */
static struct things fresh;  /* of those: nothing was typed meanwhile */
static struct things armed;  /* on for the next key                  */
static struct things locked; /* on until pressed again               */
static struct things last;   /* of the last press of a `once` key    */
static uint8_t used;         /* modifiers of the key that used them  */
static key_number used_by;
static uint16_t let_go_ms; /* the last `once` key */
#if HAS_ONCE_END
static const uint16_t lasts_ms = ONCE_MS;
#endif

static void clear(struct things *things)
{
    things->layers = 0;
    things->modifiers = 0;
}

void once_start(void)
{
    clear(&held);
    clear(&fresh);
    clear(&armed);
    clear(&locked);
    clear(&last);
    used = 0;
}

static void put(struct things *things, layer_set layers, uint8_t modifiers)
{
    things->layers |= layers;
    things->modifiers |= modifiers;
}

static void take(struct things *things, layer_set layers, uint8_t modifiers)
{
    things->layers &= (layer_set)~layers;
    things->modifiers &= (uint8_t)~modifiers;
}

static bool has(const struct things *things, layer_set layers, uint8_t modifiers)
{
    return (things->layers & layers) == layers && (things->modifiers & modifiers) == modifiers;
}

static void tell_report(void)
{
    report_once(held.modifiers | armed.modifiers | locked.modifiers | used);
}

void once_press(layer_set layers, uint8_t modifiers)
{
    if (has(&locked, layers, modifiers)) {
        take(&locked, layers, modifiers);
    } else if (has(&armed, layers, modifiers) && last.layers == layers && last.modifiers == modifiers) {
        put(&locked, layers, modifiers);
    } else {
        put(&fresh, layers, modifiers);
    }
    take(&armed, layers, modifiers);
    put(&held, layers, modifiers);
    last.layers = layers;
    last.modifiers = modifiers;
    tell_report();
}

void once_release(layer_set layers, uint8_t modifiers, uint16_t at_ms)
{
    layer_set new_layers = fresh.layers & layers & (layer_set)~locked.layers;
    uint8_t new_modifiers = fresh.modifiers & modifiers & (uint8_t)~locked.modifiers;

    put(&armed, new_layers, new_modifiers);
    let_go_ms = at_ms;
    take(&fresh, layers, modifiers);
    take(&held, layers, modifiers);
    tell_report();
}

void once_used(key_number key)
{
    clear(&fresh);
    used = armed.modifiers;
    used_by = key;
    clear(&armed);
    tell_report();
}

void once_key_up(key_number key)
{
    if (used != 0 && key == used_by) {
        used = 0;
        tell_report();
    }
}

#if HAS_ONCE_END
bool once_ends(uint16_t at_ms)
{
    if (armed.layers == 0 && armed.modifiers == 0) { /* mostly: asked first */
        return false;
    }
    bool is_held = held.layers != 0 || held.modifiers != 0;
    if (is_held || (uint16_t)(at_ms - let_go_ms) < lasts_ms) {
        return false;
    }
    clear(&armed);
    tell_report();
    return true;
}
#endif

#if HAS_UNLATCH_LAYERS && HAS_ONCE_LAYER
void once_unlatch(void)
{
    armed.layers = 0;
    locked.layers = 0;
}
#endif

#if HAS_WITH_MODIFIER
uint8_t once_modifiers(void)
{
    return held.modifiers | armed.modifiers | locked.modifiers;
}
#endif

#if HAS_ONCE_LAYER
layer_set once_layers(void)
{
    return held.layers | armed.layers | locked.layers;
}
#endif

#endif
