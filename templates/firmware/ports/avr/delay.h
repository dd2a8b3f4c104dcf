/*
 * Waiting for an exact number of cycles, which both compilers leave as it is.
 */
#ifndef DELAY_H
#define DELAY_H

#include <stdint.h>

#include "board.h"

/* Wait 4 * `turns` cycles, and LOADING or one more; `turns` is not 0. */
static inline void delay_turns(uint16_t turns)
{
    __asm__ volatile("1: sbiw %0, 1\n\tbrne 1b" : "+w"(turns));
}

enum { LOADING = 1 }; /* the count, in two cycles or one; the last turn takes one cycle less */

/* The turns that take at least so many microseconds; less so many cycles that are spent beside them. */
#define TURNS_OF_US(us) TURNS_BESIDES(0, us)
#define TURNS_BESIDES(cycles, us) \
    ((us) * (uint32_t)CLOCK_MHZ > (cycles) \
         ? (uint16_t)(((us) * (uint32_t)CLOCK_MHZ - (cycles) + 3) / 4) \
         : 1)

#endif
