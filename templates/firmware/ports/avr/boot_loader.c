/*
 * To the boot loader, as the profile says that it is started.
 *
 * By a jump to its first instruction, whose place the fuses say (7766, "Boot Loader"): the chip is left as
 * a reset would leave it, as far as a boot loader could notice. But MCUSR tells of no reset then, and one
 * that looks for the reset button there starts the keyboard again.
 *
 * By a reset by the watchdog, with a mark in RAM, which a reset leaves alone: the fuse BOOTRST has to send
 * every reset to the boot loader.
 *
 * None was tried on silicon.
 */
#include "board.h"
#include "chip.h"
#include "delay.h"
#include "pins.h"
#include "port.h"
#include "registers.h"
#include "tick.h"
#include "watchdog.h"

#if HAS_WAY_TO_BOOT_LOADER

#if HAS_DOUBLE_RESET
#error "these chips start their boot loader at a reset, not the keyboard"
#endif

enum { PADS_REGULATOR = 1 << 0 }; /* UVREGE; what is REGDIS elsewhere is clear anyway */
enum { TENS_OF_MS_OFF_BUS = 12 };

/*
 * The host has to see that the keyboard is gone before the boot loader's own device appears. A hub looks
 * for 100 ms whether a device is there to stay, and may tell the host as late (from memory).
 */
static void leave_bus(void)
{
    UDIEN = 0;
    UDCON = 1 << DETACH;
    for (uint8_t tens = 0; tens < TENS_OF_MS_OFF_BUS; tens++) {
        delay_turns(TURNS_OF_US(10000));
    }
    USBCON = 1 << FRZCLK; /* off, which also resets the block's other registers */
    PLLCSR = 0;
    CHIP_PADS_REGISTER = CHIP_PADS_ON & (uint8_t)~PADS_REGULATOR;
}

#if BOOT_LOADER_JUMP
/* The address is one of words, and 64 Ki words are the most that these chips have. */
static void start_boot_loader(void)
{
    __asm__ volatile("ijmp" ::"z"((uint16_t)(BOOT_LOADER_START / 2)));
}
#else
/* The mark comes last, when nothing is called any more: the stack may lie there. */
static void start_boot_loader(void)
{
    watchdog_set(1 << WDE); /* in 16 ms */
#if BOOT_LOADER_MARK
    REGISTER(BOOT_LOADER_MARK_ADDRESS) = (uint8_t)BOOT_LOADER_MARK_VALUE;
    REGISTER(BOOT_LOADER_MARK_ADDRESS + 1) = (uint8_t)(BOOT_LOADER_MARK_VALUE >> 8);
#endif
    for (;;) {
    }
}
#endif

void port_boot_loader(void)
{
    __asm__ volatile("cli");
    watchdog_set(0);
    leave_bus();
    tick_stop();
    pins_stop();
    ACSR = 0;
    start_boot_loader();
}

#endif
