/*
 * The watchdog: 7766 section 8.4. Changing WDTCSR takes two writes, the second within four cycles of the first.
 * The watchdog's own oscillator of 128 kHz counts its time, whatever happens to the crystal.
 */
#include "watchdog.h"

#include "port.h"
#include "registers.h"

void watchdog_set(uint8_t control)
{
    uint8_t unlock = (1 << WDCE) | (1 << WDE);

    /* Cleared before, so that a shorter time does not end at once; and after, to begin with it. */
    __asm__ volatile("wdr\n\tsts %0, %1\n\tsts %0, %2\n\twdr" ::"n"(WDTCSR_ADDRESS), "r"(unlock),
                     "r"(control)
                     : "memory");
}

void port_watchdog_start(void)
{
    watchdog_set((1 << WDE) | (1 << WDP2)); /* 32 Ki cycles: 0.25 s */
}

void port_watchdog_feed(void)
{
    __asm__ volatile("wdr");
}
