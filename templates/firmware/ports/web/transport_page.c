#include "transport_page.h"

#include "transport.h"

struct waiting {
    bool is_full;
    uint8_t length;
    uint8_t bytes[ENDPOINT_PACKET];
};

static struct waiting report, media;
static uint8_t leds;

void transport_page_start(void)
{
    report.is_full = false;
    media.is_full = false;
    leds = 0;
}

void transport_page_leds(uint8_t of_computer)
{
    leds = of_computer;
}

bool transport_page_waits(void)
{
    return report.is_full || media.is_full;
}

static void fill(struct waiting *waiting, const uint8_t *bytes, uint8_t length)
{
    for (uint8_t place = 0; place < length; place++) {
        waiting->bytes[place] = bytes[place];
    }
    waiting->length = length;
    waiting->is_full = true;
}

static int32_t empty(struct waiting *waiting, uint8_t *bytes)
{
    if (!waiting->is_full) {
        return -1;
    }
    for (uint8_t place = 0; place < waiting->length; place++) {
        bytes[place] = waiting->bytes[place];
    }
    waiting->is_full = false;
    return waiting->length;
}

int32_t transport_page_take(uint8_t *bytes)
{
    return empty(&report, bytes);
}

int32_t transport_page_take_media(uint8_t *bytes)
{
    return empty(&media, bytes);
}

/* --- transport.h ------------------------------------------------------------------------------ */

bool transport_open(void)
{
    return true;
}

bool transport_free(void)
{
    return !report.is_full;
}

bool transport_boot_protocol(void)
{
    return false;
}

void transport_give(const uint8_t *bytes, uint8_t length)
{
    fill(&report, bytes, length);
}

#if HAS_IN_TURN || HAS_LOCK_LIGHTS
uint8_t transport_leds(void)
{
    return leds;
}
#endif

bool transport_media_waits(void)
{
    return media.is_full;
}

bool transport_media_free(void)
{
    return !media.is_full;
}

void transport_media_give(const uint8_t *bytes, uint8_t length)
{
    fill(&media, bytes, length);
}
