#ifndef TICK_H
#define TICK_H

#include <stdint.h>

void tick_start(void);

/* Time has passed that the timer could not count. */
void tick_skip(uint8_t milliseconds);

#endif
