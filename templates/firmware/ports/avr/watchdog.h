#ifndef WATCHDOG_H
#define WATCHDOG_H

#include <stdint.h>

/* Write WDTCSR, and start its time anew. */
void watchdog_set(uint8_t control);

#endif
