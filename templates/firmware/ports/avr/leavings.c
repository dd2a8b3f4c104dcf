/*
 * Switches off what a boot loader left on. A boot loader that jumps here need not leave the chip as a reset does. What it left on may interrupt a
 * nap, take a pin from the matrix or stop the USB block; the register pages of 7766, 7707 and 7593.
 *
 * The ports, timer 1, the watchdog, the comparator and the USB block are set up where they are used.
 */
#include "leavings.h"

#include "chip.h"
#include "port_memory.h"
#include "registers.h"

/*
 * Section "Power Reduction Register": a part's registers cannot be written while its clock is off, so the
 * clocks come first.
 */
static FLASH const uint8_t leavings[] = {
    PRR0_ADDRESS,   PRR1_ADDRESS,   EIMSK_ADDRESS,  EECR_ADDRESS,   TCCR0A_ADDRESS, SPCR_ADDRESS,
    SPMCSR_ADDRESS, PCICR_ADDRESS,  TIMSK0_ADDRESS, TIMSK1_ADDRESS, UCSR1B_ADDRESS, CHIP_LEAVINGS,
};

/*
 * Section "Interrupts", MCUCR: IVSEL, which sends interrupts to the boot loader's section, follows only
 * within four cycles of a write of IVCE. The second write clears PUD too, which switches pull-ups off.
 */
static void take_interrupts_back(void)
{
    uint8_t unlock = 1 << IVCE;
    uint8_t here = 0;

    __asm__ volatile("out %0, %1\n\tout %0, %2" ::"n"(IN_OUT(MCUCR_ADDRESS)), "r"(unlock), "r"(here)
                     : "memory");
}

void leavings_clear(void)
{
    take_interrupts_back();
    for (uint8_t place = 0; place < sizeof leavings; place++) {
        REGISTER((uintptr_t)leavings[place]) = 0;
    }
}
