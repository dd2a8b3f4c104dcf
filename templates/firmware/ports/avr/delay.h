/*
 * Waiting for an exact number of cycles, which both compilers leave as it is.
 */
#ifndef DELAY_H
#define DELAY_H

#include <stdint.h>

#include "board.h"

/* Wait 4 * `turns` cycles, plus at most 2 to load the count; `turns` is not 0. */
static inline void delay_turns(uint16_t turns)
{
    __asm__ volatile("1: sbiw %0, 1\n\tbrne 1b" : "+w"(turns));
}

/* The turns that take at least so many microseconds. */
#define TURNS_OF_US(us) ((uint16_t)(((us) * (uint32_t)CLOCK_MHZ + 3) / 4))

#endif
