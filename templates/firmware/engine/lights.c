/*
 * Which lights are lit, by what stands of each in its table.
 */
#include "lights.h"

#include "layers.h"
#include "port.h"
#include "tables.h"
#include "transport.h"

#if HAS_LIGHTS
static light_set lit_now(void)
{
    light_set lit = 0, bit = 1;
#if HAS_LOCK_LIGHTS
    uint8_t leds = transport_leds();
#endif
#if HAS_LAYER_LIGHTS
    layer_set on = layers_lying();
#endif

    for (uint8_t number = 0; number < LIGHTS; number++) {
        FLASH const struct light *light = light_list + number;
        bool is_lit = true;
#if HAS_LOCK_LIGHTS
        is_lit &= (leds & light->leds) == light->leds;
#endif
#if HAS_LAYER_LIGHTS
        is_lit &= (on & light->layers) == light->layers;
#endif
        if (is_lit) {
            lit |= bit;
        }
        bit = (light_set)(bit << 1);
    }
    return lit;
}

void lights_step(void)
{
    port_lights(transport_open() ? lit_now() : 0);
}
#endif
