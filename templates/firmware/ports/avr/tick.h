#ifndef TICK_H
#define TICK_H

#include <stdint.h>

#include "sizes.h"

void tick_start(void);

#if HAS_WAY_TO_BOOT_LOADER
/* The timer as after a reset. */
void tick_stop(void);
#endif

/* So much time has passed asleep, when the timer stood still (or, emulated, did not). */
void tick_slept(uint8_t passed);

#endif
