#ifndef TICK_H
#define TICK_H

#include <stdint.h>

void tick_start(void);

/* The timer as after a reset. */
void tick_stop(void);

/* So much time has passed asleep, when the timer stood still (or, emulated, did not). */
void tick_slept(uint8_t passed);

#endif
