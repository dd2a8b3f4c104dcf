/*
 * All is decided by the times of first readings, each time anew from the events that are known.
 */
#include "together.h"

#include "down.h"
#include "knobs.h"
#include "layers.h"
#include "port_memory.h"
#include "tables.h"

#if HAS_TOGETHER

/* What the oldest press is, besides the place of a set. */
enum { ALONE = TOGETHERS, OPEN = TOGETHERS + 1 };

enum { OVER = FIRST_TOGETHER + TOGETHERS }; /* what a key does of a set whose action is over */

static uint8_t oldest;

/* The keys that were pressed, from the oldest press on, and the largest set that was whole in time. */
static key_number gathered[TOGETHER_KEYS];
static uint8_t count;
static uint8_t whole;
static uint8_t whole_size;

/* Whether there is a set that has all of them, and one that has more keys. */
static bool fits, may_grow;

void together_start(void)
{
    oldest = OPEN;
}

/* What a key does that is down with others of a set but the first one. */
static action_number part_of(uint8_t place)
{
    return (action_number)(FIRST_TOGETHER + place);
}

static bool has(FLASH const struct together *set, key_number key)
{
    for (uint8_t place = 0; place < TOGETHER_KEYS; place++) {
        if (set->keys[place] == key) {
            return true;
        }
    }
    return false;
}

static uint8_t size_of(FLASH const struct together *set)
{
    return set->size;
}

static bool same_keys(FLASH const struct together *one, FLASH const struct together *other)
{
    for (uint8_t place = 0; place < TOGETHER_KEYS; place++) {
        if (one->keys[place] != other->keys[place]) {
            return false;
        }
    }
    return true;
}

#if HAS_KNOBS
/*
 * What goes through all sets takes longer than a state of a knob may: this comes once for each, or for a power of
 * two of them, one less of which is `others`.
 */
static void look_at_knobs(uint8_t place, uint8_t others)
{
    if ((place & others) == 0) {
        knobs_look();
    }
}
#endif

/* Whether a set's layer is on, its keys were up, and nothing above covers it: where it is off, all does. */
static bool counts(FLASH const struct together *set)
{
    uint8_t height = layers_height(set->layer);

    for (uint8_t place = 0; place < size_of(set); place++) {
#if HAS_KNOBS
        look_at_knobs(place, 1);
#endif
        if (doing[set->keys[place]] != SEE_THROUGH) {
            return false;
        }
        if (layers_height_of_cell(set->keys[place]) > height) {
            return false;
        }
    }
    for (uint8_t place = 0; place < TOGETHERS; place++) {
#if HAS_KNOBS
        look_at_knobs(place, 15);
#endif
        if (same_keys(&togethers[place], set) && layers_height(togethers[place].layer) > height) {
            return false;
        }
    }
    return true;
}

/* How many of the keys that were pressed a set has. */
static uint8_t shared(FLASH const struct together *set)
{
    uint8_t found = 0;

    for (uint8_t place = 0; place < count; place++) {
        found = (uint8_t)(found + has(set, gathered[place]));
    }
    return found;
}

/* See which sets have all the keys, of those that are in time. */
static void look(moment since_ms)
{
    fits = false;
    may_grow = false;
    for (uint8_t place = 0; place < TOGETHERS; place++) {
        FLASH const struct together *set = &togethers[place];
#if HAS_KNOBS
        look_at_knobs(place, 0);
#endif
        if (since_ms < set->within_ms && shared(set) == count && counts(set)) {
            fits = true;
            may_grow |= size_of(set) > count;
        }
        if (may_grow) { /* all is found: with many sets the rest takes milliseconds */
            return;
        }
    }
}

/* Keep the largest set of those keys alone, the first pressed among them. */
static void see_whole(moment since_ms)
{
    for (uint8_t place = 0; place < TOGETHERS; place++) {
        FLASH const struct together *set = &togethers[place];
        uint8_t size = size_of(set);
#if HAS_KNOBS
        look_at_knobs(place, 0);
#endif
        if (since_ms < set->within_ms && size > whole_size && shared(set) == size &&
            has(set, gathered[0]) && counts(set)) {
            whole = place;
            whole_size = size;
        }
    }
}

static bool is_gathered(key_number key)
{
    for (uint8_t place = 0; place < count; place++) {
        if (gathered[place] == key) {
            return true;
        }
    }
    return false;
}

/* Take a key in that was pressed. */
static void gather(key_number key, moment since_ms)
{
    if (count == TOGETHER_KEYS) { /* no set has more, which a proof cannot know */
        return;
    }
    gathered[count] = key;
    count++;
    look(since_ms);
    if (fits) {
        see_whole(since_ms);
    }
}

/* Find out what the press at a place is; false if that is open. */
static bool is_found(uint8_t at, const struct event *press)
{
    count = 0;
    whole = ALONE;
    whole_size = 0;
    gather(press->key, 0);
    for (uint8_t place = (uint8_t)(at + 1); may_grow; place++) {
        const struct event *event = events_at(place);
        moment at_ms = event != 0 ? event->at_ms : events_horizon();
        moment since_ms = (moment)(at_ms - press->at_ms);
        look(since_ms);
        if (!may_grow) {
            break;
        }
        if (event == 0) {
            return false;
        }
        if (event->down) {
            gather(event->key, since_ms);
        } else if (is_gathered(event->key)) {
            break;
        }
    }
    return true;
}

/* Drop the first event of a key after the oldest one: its press. */
static void drop_press(key_number key)
{
    const struct event *event;

    /*@ loop unroll EVENTS; */ /* more events never wait, which a proof has to see */
    for (uint8_t place = 1; (event = events_at(place)) != 0; place++) {
        if (event->key == key) {
            events_drop(place);
            return;
        }
    }
}

/* All keys of the set are down, and what they do is to come. */
static void join(key_number pressed)
{
    /*@ split whole; */ /* for the proof: each set by itself */
    FLASH const struct together *set = &togethers[whole];

    /*@ loop unroll TOGETHER_KEYS; */
    for (uint8_t place = 0; place < size_of(set); place++) {
        key_number key = set->keys[place];
        if (key != pressed) {
            drop_press(key);
        }
        doing[key] = part_of(whole); /* the first one, until its press is done */
    }
}

#if HAS_FIRST_SECOND
void together_alone(void)
{
    oldest = ALONE;
}
#endif

bool together_decided(const struct event *press)
{
    if (oldest != OPEN) {
        return true;
    }
    if (!is_found(0, press)) {
        return false;
    }
    oldest = whole;
    if (whole != ALONE) {
        join(press->key);
    }
    return true;
}

#if HAS_FIRST_SECOND
enum beginning together_begins(uint8_t place, const struct event *press)
{
    if (!is_found(place, press)) {
        return BEGINS_OPEN;
    }
    return whole == ALONE ? BEGINS_ALONE : BEGINS_SET;
}
#endif

key_number together_key(key_number pressed)
{
    return oldest < TOGETHERS ? togethers[oldest].keys[0] : pressed;
}

action_number together_action(key_number pressed)
{
    return oldest < TOGETHERS ? togethers[oldest].action : layers_find(pressed);
}

bool together_has(key_number key)
{
    return oldest < TOGETHERS && doing[key] == part_of(oldest);
}

void together_done(void)
{
    oldest = OPEN;
}

/* The set that a key is down with, TOGETHERS if there is none whose action goes on. */
static uint8_t set_of(key_number key)
{
    for (uint8_t place = 0; place < TOGETHERS; place++) {
        FLASH const struct together *set = &togethers[place];
#if HAS_KNOBS
        look_at_knobs(place, 7);
#endif
        if (doing[set->keys[1]] == part_of(place) && has(set, key)) {
            return place;
        }
    }
    return TOGETHERS;
}

key_number together_doer(key_number key)
{
    uint8_t place = set_of(key);

    return place < TOGETHERS ? togethers[place].keys[0] : key;
}

key_number together_leave(key_number key)
{
    uint8_t place = set_of(key);

    if (doing[key] == OVER) {
        doing[key] = SEE_THROUGH;
        return NO_KEY;
    }
    if (place == TOGETHERS) {
        return key;
    }
    /*@ split place; */
    FLASH const struct together *set = &togethers[place];
    for (uint8_t other = 1; other < size_of(set); other++) {
        doing[set->keys[other]] = OVER;
    }
    return set->keys[0];
}

void together_left(key_number key, key_number first)
{
    if (first != NO_KEY && first != key) {
        doing[first] = OVER;
        doing[key] = SEE_THROUGH;
    }
}

#endif
