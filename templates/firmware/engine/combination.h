/*
 * The keys that start the boot loader when they have been down together for a second, if the keyboard
 * has such keys. They keep their own actions; this looks at the switches alone, whatever the host does.
 */
#ifndef COMBINATION_H
#define COMBINATION_H

#include <stdint.h>

#include "sizes.h"

#if HAS_COMBINATION

/* No key was down before. */
void combination_start(void);

/* Look at the keys; after each scan. May start the boot loader. */
void combination_watch(uint16_t now_ms);

#endif

#endif
