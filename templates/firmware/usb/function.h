/*
 * What the standard requests ask of a keyboard: chapter9.c knows no more of a device than this. An address
 * is that of an endpoint which function_has().
 */
#ifndef FUNCTION_H
#define FUNCTION_H

#include <stdbool.h>
#include <stdint.h>

#include "hid.h"
#include "interfaces.h"
#include "media.h"
#include "port.h"
#include "state.h"

/* After a bus reset. */
static inline void function_reset(void)
{
    device.halted = false;
    device.may_wake = false;
}

/* The host lets the device wake it, or no longer; false for one that never does. */
static inline bool function_let_wake(bool wanted)
{
    device.may_wake = wanted;
    return true;
}

/* The endpoints of an interface as new: empty, not halted, toggle at DATA0 (USB 2.0 section 9.1.1.5). */
static inline void function_fresh(uint8_t interface)
{
#if HAS_SECOND_INTERFACE
    if (interface == MEDIA_INTERFACE) {
        media_configured(true);
        return;
    }
#else
    (void)interface;
#endif
    device.halted = false;
    hid_emptied();
    port_endpoint_open(HID_ENDPOINT);
}

/* The host has configured the device, or taken that back: then it has no endpoint there any more. */
static inline void function_configured(bool configured)
{
    hid_reset();
#if HAS_SECOND_INTERFACE
    media_configured(configured);
#endif
    if (configured) {
        function_fresh(HID_INTERFACE);
    } else {
        port_endpoint_stall(HID_ENDPOINT, true);
    }
}

/* Whether a device that is configured has such an endpoint. */
static inline bool function_has(uint8_t address)
{
#if HAS_SECOND_INTERFACE
    if (address == MEDIA_ENDPOINT_ADDRESS) {
        return true;
    }
#endif
    return address == HID_ENDPOINT_ADDRESS;
}

static inline bool function_halted(uint8_t address)
{
#if HAS_SECOND_INTERFACE
    if (address == MEDIA_ENDPOINT_ADDRESS) {
        return media_halted();
    }
#else
    (void)address;
#endif
    return device.halted;
}

static inline void function_halt(uint8_t address, bool wanted)
{
#if HAS_SECOND_INTERFACE
    if (address == MEDIA_ENDPOINT_ADDRESS) {
        media_halt(wanted);
        return;
    }
#else
    (void)address;
#endif
    device.halted = wanted;
    hid_emptied();
    port_endpoint_stall(HID_ENDPOINT, wanted);
}

#endif
