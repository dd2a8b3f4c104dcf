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

/* The turns that take at least so long; less so many cycles that are spent beside them. */
#define TURNS_OF_US(us) TURNS_BESIDES(0, CYCLES_OF_NS((us) * 1000UL))
#define TURNS_BESIDES(beside, cycles) \
    ((cycles) > (beside) ? (uint16_t)(((cycles) - (beside) + 3) / 4) : 1)
#define CYCLES_OF_NS(ns) (((ns) * (uint32_t)CLOCK_MHZ + 999) / 1000)

#endif
