#include "turn.h"

#include "events.h"
#include "port_memory.h"
#include "report.h"
#include "tables.h"
#include "transport.h"

#if HAS_IN_TURN

enum { CAPS_LOCK = 0x39, CAPS_LOCK_LED = 0x02 };

static bool runs;
static bool due;            /* it is time to go on                        */
static bool is_down;        /* a stroke                                   */
static bool sets_caps_aside; /* before anything else                      */
static bool caps_is_aside;  /* and comes back                             */
static bool stops;
static key_number by_key;
static action_number by_action;
static uint16_t place; /* of what comes next */
static uint16_t now_ms, since_ms, pause_ms;

void turn_start(void)
{
    runs = false;
}

void turn_begin(key_number key, action_number done, uint16_t first)
{
    runs = true;
    due = true;
    is_down = false;
    sets_caps_aside = false;
    caps_is_aside = false;
    stops = false;
    by_key = key;
    by_action = done;
    place = first;
    if (turn_strokes[place].usage == TURN_TEXT) {
        place++;
        sets_caps_aside = (transport_leds() & CAPS_LOCK_LED) != 0;
    }
}

bool turn_runs(void)
{
    return runs;
}

key_number turn_key(void)
{
    return by_key;
}

action_number turn_done(void)
{
    return by_action;
}

void turn_drop(void)
{
    runs = false;
    report_turn(false);
}

void turn_watch(uint16_t ms)
{
    now_ms = ms;
    if ((uint16_t)(ms - since_ms) >= pause_ms) {
        due = true; /* for good: later it may seem to be early again */
    }
}

void turn_stop(void)
{
    stops = true;
    sets_caps_aside = false;
    if (pause_ms > PACE_MS) { /* a wait ends, too */
        pause_ms = PACE_MS;
        turn_watch(now_ms);
    }
}

static void pause(uint16_t ms)
{
    since_ms = now_ms;
    pause_ms = ms;
    due = false;
}

static void put_down(uint8_t usage, uint8_t modifiers)
{
    report_stroke(usage, modifiers);
    is_down = true;
}

/* What the table has next; 0 at the end. */
static FLASH const struct stroke *coming(void)
{
    FLASH const struct stroke *next = &turn_strokes[place];

    if (stops || place >= TURN_STROKES) { /* each ends before that, but a proof has to see it */
        return 0;
    }
    return (next->usage | next->modifiers) != 0 ? next : 0;
}

static void move(FLASH const struct stroke *next)
{
    place++;
    if (next->usage == TURN_WAIT) {
        pause((uint16_t)(next->modifiers * TURN_WAIT_MS));
    } else {
        put_down(next->usage, next->modifiers);
    }
}

bool turn_next(void)
{
    FLASH const struct stroke *next;

    if (events_nearly_full()) {
        turn_stop();
    }
    if (!due) {
        return false;
    }
    pause(PACE_MS);
    if (is_down) {
        report_stroke_up();
        is_down = false;
    } else if (sets_caps_aside) {
        sets_caps_aside = false;
        caps_is_aside = true;
        put_down(CAPS_LOCK, 0);
    } else if ((next = coming()) != 0) {
        move(next);
    } else if (caps_is_aside) {
        caps_is_aside = false;
        put_down(CAPS_LOCK, 0);
    } else {
        turn_drop();
    }
    return true;
}

#endif
