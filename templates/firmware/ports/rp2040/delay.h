/*
 * Waiting for an exact number of cycles, which both compilers leave as it is.
 */
#ifndef DELAY_H
#define DELAY_H

#include <stdint.h>

#include "clocks.h"

/* Wait 3 cycles a turn (Cortex-M0+ manual, section 3.3: 1 and 2); `turns` is not 0. */
static inline void delay_turns(uint32_t turns)
{
    __asm__ volatile(".syntax unified\n1: subs %0, #1\n\tbne 1b" : "+l"(turns) : : "cc");
}

/* The turns that take at least so many cycles or microseconds. */
#define TURNS_OF_CYCLES(cycles) (((uint32_t)(cycles) + 2) / 3)
#define TURNS_OF_US(us) TURNS_OF_CYCLES((uint32_t)(us)*CLOCK_MHZ)

#endif
