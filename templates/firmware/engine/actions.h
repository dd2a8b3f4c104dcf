/*
 * What keys do when they go down and up.
 */
#ifndef ACTIONS_H
#define ACTIONS_H

#include <stdbool.h>

#include "events.h"

/* No key is down. */
void actions_start(void);

/*
 * A key has gone down or up; `event` is the oldest one. False if it cannot be told yet what that means:
 * then nothing was done, and the same event comes again.
 */
bool actions_key(const struct event *event);

#endif
