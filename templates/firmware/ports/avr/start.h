/*
 * What the code before main() leaves for others.
 */
#ifndef START_H
#define START_H

#if HAS_SELF_REPORT
#include <stdint.h>

/* MCUSR as the chip came out of reset, unless a boot loader has cleared it. */
extern uint8_t reset_cause;
#endif

#endif
