/*
 * What keys do when they go down and up.
 */
#ifndef ACTIONS_H
#define ACTIONS_H

#include <stdbool.h>

#include "sizes.h"

/* No key is down. */
void actions_start(void);

/* Key `key` has gone down or up. */
void actions_key(key_number key, bool down);

#endif
