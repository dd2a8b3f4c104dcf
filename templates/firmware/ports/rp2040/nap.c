/*
 * Saving power while the bus sleeps: the core waits, at the crystal's rate and with its PLL off. The
 * other PLL runs on, since the USB block must see the bus wake; the ring oscillator too, since the boot
 * ROM starts from it after a reset by the watchdog. Whether that is within the 2.5 mA of USB 2.0 section
 * 7.2.3 depends on the board, and was not measured.
 *
 * All else runs at full speed: the nap ends when the clocks are as they were.
 *
 * Interrupts are masked, so a pending one only ends the wait; one that is pending before it, too.
 */
#include "clocks.h"
#include "port.h"
#include "registers.h"
#include "usb_block.h"

enum { NAP_US = 10000 }; /* a key wakes the host sooner than with twice that, and costs hardly more */

void port_usb_nap(void)
{
    if (usb_block_woke()) {
        return;
    }
    TIMER_ALARM0 = TIMER_TIMERAWL + NAP_US;
    TIMER_INTE = 1;
    NVIC_ISER = TIMER_IRQ_0 | USBCTRL_IRQ;
    clocks_slow();
    __asm__ volatile("dsb\n\twfi" ::: "memory");
    clocks_fast();
    NVIC_ICER = TIMER_IRQ_0 | USBCTRL_IRQ;
    TIMER_INTE = 0;
    TIMER_ARMED = 1; /* written as 1: not armed any more */
    TIMER_INTR = 1;
}
