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

uint16_t port_milliseconds(void)
{
    while (TIMER_TIMERAWL - counted >= 1000) { /* read anew, or the compiler makes it a division */
        counted += 1000;
        milliseconds++;
    }
    return milliseconds;
}
