/*
 * The watchdog: datasheet section 4.7. By erratum RP2040-E1 it counts down by two each microsecond.
 * It resets everything but the oscillators, as after power-on; the boot ROM then starts us again.
 *
 * Until clocks_start() is done it ticks from the ring oscillator, so that its limit is up to 2 s long.
 */
#include "double_reset.h"
#include "port.h"
#include "registers.h"

enum { LIMIT_MS = 300, COUNTS_A_US = 2 };

_Static_assert(LIMIT_MS * 1000 * COUNTS_A_US < 1 << 24, "the counter has 24 bits");

void port_watchdog_start(void)
{
    PSM_WDSEL = PSM_ALL & ~(PSM_ROSC | PSM_XOSC);
    WATCHDOG_LOAD = LIMIT_MS * 1000 * COUNTS_A_US;
    WATCHDOG_CTRL = WATCHDOG_ENABLE | WATCHDOG_PAUSE_FOR_DEBUGGER;
}

void port_watchdog_feed(void)
{
    WATCHDOG_LOAD = LIMIT_MS * 1000 * COUNTS_A_US;
#if HAS_DOUBLE_RESET
    double_reset_step();
#endif
}
