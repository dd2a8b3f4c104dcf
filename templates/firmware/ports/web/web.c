/*
 * The page's side of web.h, and of port.h what the engine calls: time, switches, bytes that are kept.
 * There is no USB here, so none of its functions.
 */
#include "web.h"

#include "events.h"
#include "keyboard.h"
#include "layers_told.h"
#include "lights.h"
#include "port.h"
#include "port_memory.h"
#include "transport_page.h"

static line_set closed[DRIVE_LINES], expected[DRIVE_LINES];
static uint16_t now_ms;
#if HAS_KNOBS
static knob_set contacts;
#endif
#if HAS_REMEMBERED_BASE
static uint8_t changed[PORT_KEPT_BYTES]; /* bytes kept, the other way round: 0 for never */
#endif
static uint32_t boot_loads, faults, lit;
static uint8_t bytes[ENDPOINT_PACKET];
static bool waits; /* since the last step: the oldest event is a press that is not decided */
static struct event oldest;

/* --- web.h --------------------------------------------------------------------------------- */

void web_start(void)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        closed[drive] = 0;
    }
    now_ms = 0;
#if HAS_KNOBS
    contacts = 0;
#endif
    boot_loads = 0;
    lit = 0;
    faults = 0;
    waits = false;
    transport_page_start();
    keyboard_start();
}

void web_advance(uint32_t milliseconds)
{
    now_ms = (uint16_t)(now_ms + milliseconds);
}

/*
 * Where no report was in its way, only a press that is not decided has kept an event from being done. A
 * report may be of a key that was let go while such a press goes on waiting.
 */
static bool is_waiting(const struct event *first)
{
    bool goes_on = waits && first->key == oldest.key && first->at_ms == oldest.at_ms;

    return first->down && (goes_on || !transport_page_waits());
}

void web_step(void)
{
    keyboard_step();
#if HAS_LIGHTS
    lights_step();
#endif
    const struct event *first = events_at(0);
    waits = first != 0 && is_waiting(first);
    if (waits) {
        oldest = *first;
    }
}

uint32_t web_lit(void)
{
    return lit;
}

void web_leds(uint32_t leds)
{
    transport_page_leds((uint8_t)leds);
}

static void move(uint32_t drive, uint32_t sense, bool is_closed)
{
    if (drive >= DRIVE_LINES || sense >= SENSE_LINES) {
        web_fault();
        return;
    }
    line_set bit = (line_set)((line_set)1 << sense);
    line_set others = (line_set)(closed[drive] & (line_set)~bit);
    closed[drive] = is_closed ? (line_set)(others | bit) : others;
}

void web_close(uint32_t drive, uint32_t sense)
{
    move(drive, sense, true);
}

void web_open(uint32_t drive, uint32_t sense)
{
    move(drive, sense, false);
}

#if HAS_KNOBS
void web_knob(uint32_t number, uint32_t closed_ones)
{
    if (number >= KNOBS || closed_ones > 3) {
        web_fault();
        return;
    }
    knob_set others = (knob_set)(contacts & (knob_set)~((knob_set)3 << (2 * number)));
    contacts = (knob_set)(others | (knob_set)((knob_set)closed_ones << (2 * number)));
}
#endif

int32_t web_take_report(void)
{
    return transport_page_take(bytes);
}

int32_t web_take_media(void)
{
    return transport_page_take_media(bytes);
}

const uint8_t *web_bytes(void)
{
    return bytes;
}

uint32_t web_boot_loads(void)
{
    return boot_loads;
}

uint32_t web_layers(void)
{
    return layers_told_on();
}

uint32_t web_base(void)
{
    return layers_told_base();
}

int32_t web_waiting(uint32_t place)
{
    const struct event *event;
    uint8_t at = 0;

    if (!waits) {
        return WEB_NONE;
    }
    while ((event = events_at(at++)) != 0) {
        if (event->down && place-- == 0) {
            return event->key;
        }
    }
    return WEB_NONE;
}

void web_fault(void)
{
    faults++;
}

uint32_t web_faults(void)
{
    return faults;
}

/* --- port.h -------------------------------------------------------------------------------- */

uint16_t port_milliseconds(void)
{
    return now_ms;
}

void port_boot_loader(void)
{
    boot_loads++;
}

#if HAS_LIGHTS
void port_lights(light_set of_engine)
{
    lit = of_engine;
}
#endif

#if HAS_REMEMBERED_BASE
uint8_t port_kept(uint8_t place)
{
    return (uint8_t)~changed[place];
}

bool port_keep(uint8_t place, uint8_t value)
{
    changed[place] = (uint8_t)~value;
    return true;
}
#endif

#if HAS_KNOBS
knob_set port_knobs(void)
{
    return contacts;
}
#endif

line_set port_read(uint8_t drive, uint8_t times)
{
    (void)times;
    return closed[drive];
}

uint8_t port_scan(line_set *reading)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        *reading = closed[drive];
        if (*reading != expected[drive]) {
            return drive;
        }
    }
    return DRIVE_LINES;
}

void port_expect(uint8_t drive, line_set now_closed)
{
    expected[drive] = now_closed;
}
