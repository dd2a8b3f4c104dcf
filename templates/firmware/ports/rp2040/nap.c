/*
 * Saving power while the bus sleeps: the core waits, and what it does not need has no clock. Core and
 * USB block both run from PLL_USB, since the core may not be slower than that block while the host sees
 * us (clocks.c); the ring oscillator runs too, since the boot ROM starts from it after a reset by the
 * watchdog. Whether that is within the 2.5 mA of USB 2.0 section 7.2.3 was not measured; with a PLL and
 * the USB block's receiver running it is unlikely.
 *
 * All else runs at full speed: the nap ends when the clocks are as they were.
 */
#include "clocks.h"
#include "port.h"
#include "registers.h"
#include "usb_block.h"

enum { NAP_US = 10000 }; /* a key wakes the host sooner than with twice that, and costs hardly more */

/*
 * The core latches what an interrupt's line has once said, until a handler runs, and none does, or ICPR
 * is written (Arm, Cortex-M0+ Devices Generic User Guide, section 4.2.6); while it is latched and
 * enabled, `wfi` does not wait. So: the blocks' own flags, then ICPR, and then one more look. What comes
 * after ICPR is latched and ends the wait, however early; what came before it, the look sees.
 */
static void arm_interrupts(void)
{
    TIMER_INTR = TIMER_ALARM_0;
    TIMER_ALARM0 = TIMER_TIMERAWL + NAP_US;
    TIMER_INTE = TIMER_ALARM_0;
    NVIC_ICPR = TIMER_IRQ_0 | USBCTRL_IRQ;
    NVIC_ISER = TIMER_IRQ_0 | USBCTRL_IRQ;
}

static void disarm_interrupts(void)
{
    NVIC_ICER = TIMER_IRQ_0 | USBCTRL_IRQ;
    TIMER_INTE = 0;
    TIMER_ARMED = TIMER_ALARM_0; /* written as 1: not armed any more */
}

/* Interrupts are masked, so one only ends the wait. */
void port_usb_nap(void)
{
    if (usb_block_woke()) {
        return;
    }
    clocks_slow();
    arm_interrupts();
    if (!usb_block_woke()) {
        __asm__ volatile("dsb\n\twfi" ::: "memory");
    }
    disarm_interrupts();
    clocks_fast();
}
