/*
 * Those that wait are moved up when one goes: mostly there is nothing to move, and it takes less of a chip's
 * program than a ring.
 */
#include "events.h"

#include "knobs.h"

#if HAS_IN_TURN
enum { NEARLY_FULL = 13 }; /* six keys down and up, and one more */
#endif

/* A millisecond may be nearly over when an edge is read first: so many begin before a time is over. */
enum { RELEASE_BEGUN = DEBOUNCE_MS + 1 };
#if HAS_PRESS_TIME
enum { PRESS_BEGUN = PRESS_MS + 1 };
#else
enum { PRESS_BEGUN = 0 };
#endif

static struct event queue[EVENTS];
static uint8_t count;
static uint8_t settled; /* how many of those, from the first on, nothing takes back any more */
#if HAS_TIMES
static moment seen_ms;  /* the last scan */
#endif

void events_start(void)
{
    count = 0;
    settled = 0;
}

static bool is_due(const struct event *event, moment now_ms)
{
    return (moment)(now_ms - event->at_ms) >= (event->down ? PRESS_BEGUN : RELEASE_BEGUN);
}

static void take_out(uint8_t place)
{
    while (++place < count) {
        const struct event *event = &queue[place];
        struct event *before = &queue[place - 1];
        before->at_ms = event->at_ms;
        before->key = event->key;
        before->down = event->down;
    }
    count = (uint8_t)(place - 1);
}

enum edge events_edge(key_number key, bool down, moment now_ms)
{
    for (uint8_t place = settled; place < count; place++) {
        if (queue[place].key == key && !is_due(&queue[place], now_ms)) {
            take_out(place);
            return EDGE_TAKEN_BACK;
        }
    }
    if (count == EVENTS) {
        return EDGE_REFUSED;
    }
    struct event *event = &queue[count];
    event->at_ms = now_ms;
    event->key = key;
    event->down = down;
    count++;
    return EDGE_ADDED;
}

void events_settle(moment now_ms)
{
#if HAS_TIMES
    seen_ms = now_ms;
#endif
    while (settled < count && is_due(&queue[settled], now_ms)) {
        settled++;
    }
}

const struct event *events_at(uint8_t place)
{
    return place < settled ? &queue[place] : 0;
}

void events_drop(uint8_t place)
{
#if HAS_KNOBS
    knobs_look(); /* between what was done and the report of it */
#endif
    take_out(place);
    if (settled != 0) {
        settled--;
    }
}

#if HAS_IN_TURN
bool events_take(key_number key, struct event *taken)
{
    for (uint8_t place = 0; place < settled; place++) {
        if (queue[place].key == key) {
            taken->at_ms = queue[place].at_ms; /* whole, Clang copies it by a library's function */
            taken->key = key;
            taken->down = queue[place].down;
            events_drop(place);
            return true;
        }
    }
    return false;
}

bool events_nearly_full(void)
{
    return count >= NEARLY_FULL;
}
#endif

#if HAS_KNOBS
bool events_none(void)
{
    return count == 0;
}
#endif

#if HAS_TIMES
moment events_horizon(void)
{
    return settled < count ? queue[settled].at_ms : seen_ms;
}
#endif
