/*
 * Saving power while the bus sleeps: 7766 sections 7 (power-down) and 21.7 (the frozen USB block).
 *
 * Only the watchdog's oscillator runs. The chip wakes by the bus, or by the watchdog, which for once
 * interrupts instead of resetting; should the interrupt not come, it resets the chip next time. Where bus
 * and watchdog wake the chip together, only one handler runs, and the watchdog's flag is left for the next
 * nap: written as 1, it is cleared (7766 section 8.4).
 */
#include "board.h"
#include "port.h"
#include "registers.h"
#include "tick.h"
#include "usb_block.h"
#include "watchdog.h"

/*
 * 2 Ki cycles of 128 kHz, the watchdog's shortest time; and what the crystal takes to start again, 16 Ki
 * of its cycles with the usual fuses (7766 table 6-4), while the timer stands still.
 */
enum { NAP_MS = 16 + (16384 + CLOCK_MHZ * 500) / (CLOCK_MHZ * 1000) };

/* A wake-up between the test and `sleep` is not missed: its interrupt waits, and ends the sleep. */
static void sleep_until_interrupt(void)
{
    SMCR = 1 << SM1 | 1 << SE; /* power-down */
    __asm__ volatile("sei\n\tsleep\n\tcli" ::: "memory");
    SMCR = 0;
}

void port_usb_nap(void)
{
    if (!usb_block_may_stop() || (UDCON & (1 << RMWKUP)) != 0) {
        return;
    }
    UDIEN = 1 << WAKEUPE;
    usb_block_stop();
    watchdog_set(1 << WDIF | 1 << WDIE | 1 << WDE);
    sleep_until_interrupt();
    port_watchdog_start();
    UDIEN = 0;
    tick_slept(usb_block_woke() ? 0 : NAP_MS);
}
