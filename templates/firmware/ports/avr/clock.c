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
    undivide_clock();
    leavings_clear();
#if CHIP_HAS_JTAG
    free_jtag_pins();
#endif
    ACSR = 1 << ACD; /* nobody compares voltages here */
    pins_start();
    tick_start();
}
