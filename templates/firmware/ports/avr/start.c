/*
 * From reset to main(), and the interrupt vectors.
 *
 * Interrupts are on only while the chip naps (nap.c), and then only to wake it. A handler that
 * returns with `ret` instead of `reti` leaves them off again: one nap ends with one interrupt.
 */
#include "chip.h"
#include "registers.h"
#include "sizes.h"
#include "start.h"

#define BARE(section_name) __attribute__((naked, used, noinline, section(section_name)))

#define TEXT_OF(value) #value
#define TEXT(value) TEXT_OF(value)

void vectors(void);
void start_reset(void);

#if HAS_SELF_REPORT
__attribute__((used)) uint8_t reset_cause;
#endif

/*
 * The table is whole, and every interrupt just returns: should one come that nobody asked for, it wakes
 * the chip and does no more. Each place has room for two words.
 */
BARE(".vectors") void vectors(void)
{
    __asm__ volatile(
        "jmp start_reset\n"
        ".rept " TEXT(CHIP_VECTORS) " - 1\n"
        "ret\n"
        "nop\n"
        ".endr\n");
}

/*
 * After a reset by the watchdog it still runs, with its shortest time, and WDRF holds it on; so these
 * come first (7766 section 8.2.1, "Watchdog Timer"). r1 is zero wherever C code runs.
 */
BARE(".text.start_reset") void start_reset(void)
{
    __asm__ volatile(
        "cli\n"
        "clr r1\n"
#if HAS_SELF_REPORT
        "in r2, %0\n" /* before it is cleared, and nothing before main() uses r2 */
#endif
        "wdr\n"
        "out %0, r1\n"
        "ldi r24, %1\n"
        "sts %2, r24\n"
        "sts %2, r1\n"
        "ldi r28, lo8(stack_top)\n"
        "ldi r29, hi8(stack_top)\n"
        "out %3, r29\n"
        "out %4, r28\n"

        "ldi r30, lo8(data_in_flash)\n"
        "ldi r31, hi8(data_in_flash)\n"
        "ldi r26, lo8(data_start)\n"
        "ldi r27, hi8(data_start)\n"
        "ldi r24, lo8(data_end)\n"
        "ldi r25, hi8(data_end)\n"
        "rjmp 2f\n"
        "1: lpm r0, Z+\n"
        "st X+, r0\n"
        "2: cp r26, r24\n"
        "cpc r27, r25\n"
        "brne 1b\n"

        "ldi r26, lo8(bss_start)\n"
        "ldi r27, hi8(bss_start)\n"
        "ldi r24, lo8(bss_end)\n"
        "ldi r25, hi8(bss_end)\n"
        "rjmp 2f\n"
        "1: st X+, r1\n"
        "2: cp r26, r24\n"
        "cpc r27, r25\n"
        "brne 1b\n"
#if HAS_SELF_REPORT
        "sts reset_cause, r2\n"
#endif
        "jmp main\n"

        /* The compilers name these where a file has such variables; the loops above are they. */
        ".global __do_copy_data\n"
        ".global __do_clear_bss\n"
        ".set __do_copy_data, start_reset\n"
        ".set __do_clear_bss, start_reset\n" ::"n"(IN_OUT(MCUSR_ADDRESS)),
        "n"(1 << WDCE | 1 << WDE), "n"(WDTCSR_ADDRESS), "n"(IN_OUT(SPH_ADDRESS)),
        "n"(IN_OUT(SPL_ADDRESS)));
}
