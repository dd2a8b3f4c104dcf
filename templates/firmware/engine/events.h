/*
 * Edges of keys on their way from the matrix to the actions, in the order of their first readings.
 *
 * An edge is settled once its key has kept to it: a release for more than DEBOUNCE_MS, a press at once or,
 * with PRESS_MS, for more than that. Until then the opposite edge takes it back, and what came
 * after it waits, so that no press overtakes a release that began before it.
 *
 * Where nothing but that asks for the time of an event, a moment has 8 bits: more than the debounce time
 * and a nap.
 */
#ifndef EVENTS_H
#define EVENTS_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

struct event {
    moment at_ms; /* of its first reading, as port_milliseconds() has it */
    key_number key;
    bool down;
};

enum edge { EDGE_REFUSED, EDGE_TAKEN_BACK, EDGE_ADDED };

/* Sixteen changes are more than ten fingers make between two polls of the host. */
enum { EVENTS = 16 };

/* Forget all events. */
void events_start(void);

/* Key `key` reads closed or open, and did not before. Refused if there is no room: try again. */
enum edge events_edge(key_number key, bool down, moment now_ms);

/* Settle what is due. Once a scan, after its edges. */
void events_settle(moment now_ms);

/* A settled event, 0 being the oldest; null if there are not as many. */
const struct event *events_at(uint8_t place);

/* Drop a settled event. */
void events_drop(uint8_t place);

#if HAS_IN_TURN
/* Take the oldest settled event of a key out, whatever is before it; false if there is none. */
bool events_take(key_number key, struct event *taken);

/* There is hardly room for another. */
bool events_nearly_full(void);
#endif

#if HAS_KNOBS
/* No event waits, not even one that is not settled. */
bool events_none(void);
#endif

#if HAS_TIMES
/* Up to which millisecond all that happened is settled. */
moment events_horizon(void);
#endif

#endif
