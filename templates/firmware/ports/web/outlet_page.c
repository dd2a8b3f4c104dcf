#include "outlet_page.h"

#include "outlet.h"

struct waiting {
    bool is_full;
    uint8_t length;
    uint8_t bytes[ENDPOINT_PACKET];
};

static struct waiting report, media;

void outlet_page_start(void)
{
    report.is_full = false;
    media.is_full = false;
}

bool outlet_page_waits(void)
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

int32_t outlet_page_take(uint8_t *bytes)
{
    return empty(&report, bytes);
}

int32_t outlet_page_take_media(uint8_t *bytes)
{
    return empty(&media, bytes);
}

/* --- outlet.h ------------------------------------------------------------------------------ */

bool outlet_open(void)
{
    return true;
}

bool outlet_free(void)
{
    return !report.is_full;
}

bool outlet_boot_protocol(void)
{
    return false;
}

void outlet_give(const uint8_t *bytes, uint8_t length)
{
    fill(&report, bytes, length);
}

bool outlet_media_waits(void)
{
    return media.is_full;
}

bool outlet_media_free(void)
{
    return !media.is_full;
}

void outlet_media_give(const uint8_t *bytes, uint8_t length)
{
    fill(&media, bytes, length);
}
