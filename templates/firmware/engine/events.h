/*
 * Accepted key changes on their way from the matrix to the actions, in order.
 */
#ifndef EVENTS_H
#define EVENTS_H

#include <stdbool.h>

#include "sizes.h"

struct event {
    key_number key;
    bool down;
};

/* Forget all events. */
void events_start(void);

/* False if the queue is full: then the caller tries again at its next scan. */
bool events_add(key_number key, bool down);

/* The oldest event, or false if there is none. */
bool events_take(struct event *event);

#endif
