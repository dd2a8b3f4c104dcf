/*
 * Life and time. What each function must do is in port.h.
 */
#include "pins.h"
#include "port.h"

/* In this order: watchdog off, clocks, a tick of one millisecond, and last the pins. */
void port_start(void)
{
    pins_start();
}

/* Polled or counted by an interrupt, but always whole: read it twice if it has two halves. */
uint16_t port_milliseconds(void)
{
    return 0;
}

void port_watchdog_start(void)
{
}

void port_watchdog_feed(void)
{
}

#if HAS_REMEMBERED_BASE
/* 0xFF where nothing was ever kept. A port without such memory leaves both out. */
uint8_t port_kept(uint8_t place)
{
    (void)place;
    return 0xFF;
}

bool port_keep(uint8_t place, uint8_t value)
{
    (void)place;
    (void)value;
    return true;
}
#endif

#if HAS_WAY_TO_BOOT_LOADER
/* Off the bus first (and for longer than the host needs to see it), then leave. Never returns. */
void port_boot_loader(void)
{
    for (;;) {
    }
}
#endif
