/*
 * A ring. Sixteen changes are more than ten fingers make between two polls of the host.
 */
#include "events.h"

enum { ROOM = 16 }; /* a power of two, so that a place wraps with one mask */

static struct event ring[ROOM];
static uint8_t first;
static uint8_t count;

void events_start(void)
{
    count = 0;
}

bool events_add(key_number key, bool down)
{
    if (count == ROOM) {
        return false;
    }
    struct event *place = &ring[(uint8_t)(first + count) & (ROOM - 1)];
    place->key = key;
    place->down = down;
    count++;
    return true;
}

bool events_take(struct event *event)
{
    if (count == 0) {
        return false;
    }
    *event = ring[first];
    first = (first + 1) & (ROOM - 1);
    count--;
    return true;
}
