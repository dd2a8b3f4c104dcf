/*
 * A transport that a test opens and empties, and no USB behind it. A build that has the usb folder
 * leaves this file out.
 */
#include <string.h>

#include "host.h"
#include "port.h"
#include "transport.h"
#include "usb.h"

struct transport {
    bool is_full;
    uint8_t length;
    uint8_t bytes[ENDPOINT_PACKET];
};

static bool is_open, is_boot, is_suspended;
static uint8_t leds;
static struct transport reports, media;

static void fill(struct transport *transport, const uint8_t *bytes, uint8_t length)
{
    memcpy(transport->bytes, bytes, length);
    transport->length = length;
    transport->is_full = true;
}

static int empty(struct transport *transport, uint8_t *bytes)
{
    if (!transport->is_full) {
        return HOST_NAK;
    }
    transport->is_full = false;
    memcpy(bytes, transport->bytes, transport->length);
    return transport->length;
}

bool transport_open(void)
{
    return is_open;
}

bool transport_free(void)
{
    return !reports.is_full;
}

bool transport_boot_protocol(void)
{
    return is_boot;
}

void transport_give(const uint8_t *report, uint8_t length)
{
    fill(&reports, report, length);
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

void transport_media_give(const uint8_t *report, uint8_t length)
{
    fill(&media, report, length);
}

void usb_start(void)
{
    reports.is_full = false;
    media.is_full = false;
    leds = 0;
    port_usb_attach();
}

void usb_step(void)
{
}

bool usb_suspended(void)
{
    return is_suspended;
}

void usb_wake_host(void)
{
    port_usb_wake_host();
}

void host_transport(bool open, bool boot_protocol)
{
    is_open = open;
    is_boot = boot_protocol;
}

void host_leds(uint8_t report)
{
    leds = report;
}

void host_suspend(bool suspended)
{
    is_suspended = suspended;
}

int host_take_report(uint8_t *bytes)
{
    return empty(&reports, bytes);
}

int host_take_media(uint8_t *bytes)
{
    return empty(&media, bytes);
}
