/*
 * Saving power while the bus sleeps: the core waits, all clocks run on, since the USB block must see
 * the bus wake. That is far from what a sleeping bus allows a device (USB 2.0 section 7.2.3: 2.5 mA).
 *
 * Interrupts are masked, so a pending one only ends the wait; one that is pending before it, too.
 */
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
    __asm__ volatile("dsb\n\twfi" ::: "memory");
    NVIC_ICER = TIMER_IRQ_0 | USBCTRL_IRQ;
    TIMER_INTE = 0;
    TIMER_ARMED = 1; /* written as 1: not armed any more */
    TIMER_INTR = 1;
}
