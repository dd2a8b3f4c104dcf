/*
 * The AT90USB162 has no multiplier, and the compilers then call this function for `a * b` in 16 bits.
 * GCC holds it to registers of its own: r25:r24 = r25:r24 * r23:r22, with r0, r21, r22 and r23 lost.
 * Where nobody calls it, the linker leaves it out.
 */
#include "chip.h"

#if CHIP_LACKS_MULTIPLIER
void __mulhi3(void); /* its arguments and result stand in the registers named above */

__attribute__((naked, noinline, used)) void __mulhi3(void)
{
    __asm__ volatile(
        "clr r0\n"
        "clr r21\n"
        "1: sbrs r24, 0\n"
        "rjmp 2f\n"
        "add r0, r22\n"
        "adc r21, r23\n"
        "2: lsl r22\n"
        "rol r23\n"
        "lsr r25\n"
        "ror r24\n"
        "sbiw r24, 0\n"
        "brne 1b\n"
        "mov r24, r0\n"
        "mov r25, r21\n"
        "ret\n");
}
#endif
