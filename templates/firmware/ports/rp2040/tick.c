/*
 * The timer counts microseconds, as the watchdog's tick generator gives them: datasheet sections 4.6
 * and 4.7.2. The core has no division, so whole milliseconds are counted off as they pass.
 */
#include "tick.h"

#include "clocks.h"
#include "port.h"
#include "registers.h"

static uint16_t milliseconds;
static uint32_t counted; /* the timer's microseconds at the last whole millisecond; from reset, 0 */

void tick_start(void)
{
    WATCHDOG_TICK = WATCHDOG_TICK_ENABLE | CRYSTAL_MHZ;
}

#if HAS_SELF_REPORT
uint16_t port_ticks(void)
{
    return (uint16_t)(TIMER_TIMERAWL / PORT_TICK_US);
}
#endif

uint16_t port_milliseconds(void)
{
    while (TIMER_TIMERAWL - counted >= 1000) { /* read anew, or the compiler makes it a division */
        counted += 1000;
        milliseconds++;
    }
    return milliseconds;
}
