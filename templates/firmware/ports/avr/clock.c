/*
 * What the chip needs before anything else, whatever a boot loader left behind.
 */
#include "chip.h"
#include "leavings.h"
#include "pins.h"
#include "port.h"
#include "registers.h"
#include "tick.h"

/* 7766 section 6.10: full clock, even with the fuse that divides it by eight. */
static void undivide_clock(void)
{
    uint8_t unlock = 1 << CLKPCE;
    uint8_t undivided = 0;

    __asm__ volatile("sts %0, %1\n\tsts %0, %2" ::"n"(CLKPR_ADDRESS), "r"(unlock), "r"(undivided)
                     : "memory");
}

#ifdef CHIP_CLKSEL0
enum { RC_8_MHZ = 0x20, CRYSTAL_8_TO_16_MHZ = 0x0F }; /* CLKSEL1: the fuses CKSEL of both, table 6-1 */

/*
 * Chips whose ordering code ends in RC start on their own RC oscillator, from which USB cannot run: 7766
 * section 6.8, "Clock Switch", from memory. EXSUT1 lets the crystal run for 4 ms before it counts. Should
 * it not start, the watchdog starts anew.
 */
static void run_from_crystal(void)
{
    if ((CHIP_CLKSEL0 & (1 << CLKS)) != 0) {
        return;
    }
    port_watchdog_start();
    CHIP_CLKSEL1 = RC_8_MHZ | CRYSTAL_8_TO_16_MHZ;
    CHIP_CLKSEL0 |= 1 << EXSUT1 | 1 << EXTE;
    while ((CHIP_CLKSTA & (1 << EXTON)) == 0) {
    }
    CHIP_CLKSEL0 |= 1 << CLKS;
    CHIP_CLKSEL0 &= (uint8_t)~(1 << RCE);
}
#endif

#if CHIP_HAS_JTAG
/* 7766 section 26.5.1: written twice within four cycles. */
static void free_jtag_pins(void)
{
    uint8_t off = 1 << JTD;

    __asm__ volatile("out %0, %1\n\tout %0, %1" ::"n"(IN_OUT(MCUCR_ADDRESS)), "r"(off) : "memory");
}
#endif

void port_start(void)
{
#ifdef CHIP_CLKSEL0
    run_from_crystal();
#endif
    undivide_clock();
    leavings_clear();
#if CHIP_HAS_JTAG
    free_jtag_pins();
#endif
    ACSR = 1 << ACD; /* nobody compares voltages here */
    pins_start();
    tick_start();
}
