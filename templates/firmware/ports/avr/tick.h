#ifndef TICK_H
#define TICK_H

#include <stdint.h>

void tick_start(void);

/* Power-down stops the timer's clock as well; stopped by us, it is the same on an emulated chip. */
void tick_stop(void);

/* Time has passed that the timer could not count. */
void tick_skip(uint8_t milliseconds);

#endif
