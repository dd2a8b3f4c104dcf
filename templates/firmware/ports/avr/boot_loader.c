/*
 * To the boot loader in the upper end of flash, whose place the fuses say (7766, "Boot Loader"): the chip
 * is left as a reset would leave it, as far as a boot loader could notice, and its first instruction is
 * jumped to.
 *
 * What a boot loader makes of that is its own affair. Many look at MCUSR for the kind of reset that
 * started them, and find none there; one that wants a watchdog reset or a mark in RAM starts the
 * keyboard again. None was tried on silicon.
 */
#include "board.h"
#include "chip.h"
#include "delay.h"
#include "pins.h"
#include "port.h"
#include "registers.h"
#include "tick.h"
#include "watchdog.h"

_Static_assert(DOUBLE_RESET == 0, "these chips start their boot loader at a reset, not the keyboard");

enum { PADS_REGULATOR = 1 << 0 }; /* UVREGE; what is REGDIS elsewhere is clear anyway */

/* The host has to see that the keyboard is gone before the boot loader's own device appears. */
static void leave_bus(void)
{
    UDIEN = 0;
    UDCON = 1 << DETACH;
    delay_turns(TURNS_OF_US(10000));
    USBCON = 1 << FRZCLK; /* off, which also resets the block's other registers */
    PLLCSR = 0;
    CHIP_PADS_REGISTER = CHIP_PADS_ON & (uint8_t)~PADS_REGULATOR;
}

void port_boot_loader(void)
{
    __asm__ volatile("cli");
    watchdog_set(0);
    leave_bus();
    tick_stop();
    pins_stop();
    ACSR = 0;
    /* The address is one of words, and 64 Ki words are the most that these chips have. */
    __asm__ volatile("ijmp" ::"z"((uint16_t)(BOOT_LOADER_START / 2)));
}
