/*
 * An outlet that a test opens and empties, and no USB behind it. A build that has the usb folder
 * leaves this file out.
 */
#include <string.h>

#include "host.h"
#include "outlet.h"
#include "port.h"
#include "usb.h"

static bool is_open, is_boot, is_full, is_suspended;
static uint8_t held[ENDPOINT_PACKET];
static uint8_t held_length;

bool outlet_open(void)
{
    return is_open;
}

bool outlet_free(void)
{
    return !is_full;
}

bool outlet_boot_protocol(void)
{
    return is_boot;
}

void outlet_give(const uint8_t *report, uint8_t length)
{
    memcpy(held, report, length);
    held_length = length;
    is_full = true;
}

void usb_start(void)
{
    is_full = false;
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

void host_outlet(bool open, bool boot_protocol)
{
    is_open = open;
    is_boot = boot_protocol;
}

void host_suspend(bool suspended)
{
    is_suspended = suspended;
}

int host_take_report(uint8_t *bytes)
{
    if (!is_full) {
        return HOST_NAK;
    }
    is_full = false;
    memcpy(bytes, held, held_length);
    return held_length;
}
