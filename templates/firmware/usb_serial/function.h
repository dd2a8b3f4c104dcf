/*
 * What the standard requests ask of a serial port: chapter9.c knows no more of a device than this. An address
 * is that of an endpoint which function_has().
 */
#ifndef FUNCTION_H
#define FUNCTION_H

#include <stdbool.h>
#include <stdint.h>

#include "serial.h"

/* After a bus reset. */
static inline void function_reset(void)
{
    serial_configured(false);
}

/* It never wakes the host: nobody types on it. */
static inline bool function_let_wake(bool wanted)
{
    (void)wanted;
    return false;
}

static inline void function_fresh(uint8_t interface)
{
    serial_fresh(interface);
}

/* Without a configuration there is no endpoint but the control one (USB 2.0 section 9.1.1.5). */
static inline void function_configured(bool configured)
{
    if (!configured) {
        serial_close();
    }
    serial_configured(configured);
}

static inline bool function_has(uint8_t address)
{
    return serial_has(address);
}

static inline bool function_halted(uint8_t address)
{
    return serial_halted(address);
}

static inline void function_halt(uint8_t address, bool wanted)
{
    serial_halt(address, wanted);
}

#endif
