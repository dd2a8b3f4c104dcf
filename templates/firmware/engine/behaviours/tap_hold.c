/*
 * All is decided by the times of first readings, so that neither a slow host nor the wait for a release
 * to settle makes a difference.
 */
#include "tap_hold.h"

#include <stdbool.h>

#include "doing.h"
#include "knobs.h"
#include "port_memory.h"
#include "tables.h"
#include "together.h"
#include "typed.h"

#if HAS_TAP_HOLD

enum verdict { NOTHING_YET, LETS_GO, TAP, HOLD };

static uint8_t looked_at; /* events that have said nothing, the press itself included */
static bool lets_go;      /* the one behind those goes before the press               */

void tap_hold_start(void)
{
    looked_at = 1;
}

uint8_t tap_hold_lets_go(void)
{
    return lets_go ? looked_at : 0;
}

#if HAS_HANDS
static bool same_hand(key_number one, key_number other)
{
    return (hand_of[one] & hand_of[other]) != 0; /* 0 for a key of neither */
}
#endif

/* Whether a key went down among the events after the press and before the one at `place`. */
static bool went_down_since(key_number key, uint8_t place)
{
    while (--place != 0) {
        const struct event *event = events_at(place);
        if (event != 0 && event->key == key) {
            return true;
        }
    }
    return false;
}

/* What the event of another key says, which is the one at `looked_at`. */
static enum verdict another_key(uint8_t how, const struct event *event)
{
    if (event->down) {
        return (how & BY_PRESS) != 0 ? HOLD : NOTHING_YET;
    }
    if (went_down_since(event->key, looked_at)) {
        return (how & BY_RELEASE) != 0 ? HOLD : NOTHING_YET;
    }
    return doing_types_only(event->key) ? LETS_GO : NOTHING_YET;
}

/* From what came after the press, oldest first. */
static enum verdict later(uint8_t how, uint16_t after_ms, const struct event *press)
{
    const struct event *event;

    for (; (event = events_at(looked_at)) != 0; looked_at++) {
#if HAS_KNOBS
        knobs_look();
#endif
        if ((moment)(event->at_ms - press->at_ms) >= after_ms) {
            return HOLD;
        }
        if (event->key == press->key) {
            return TAP;
        }
#if HAS_TOGETHER
        if (together_has(event->key)) {
            return TAP;
        }
#endif
#if HAS_HANDS
        if (event->down && (how & OTHER_HAND) != 0 && same_hand(event->key, press->key)) {
            return TAP;
        }
#endif
        enum verdict verdict = another_key(how, event);
        if (verdict != NOTHING_YET) {
            return verdict;
        }
    }
    return (moment)(events_horizon() - press->at_ms) >= after_ms ? HOLD : NOTHING_YET;
}

action_number tap_hold_down(action_number cell, uint16_t place, const struct event *press)
{
    FLASH const struct tap_hold *key = tap_holds + place;
    uint16_t after_ms = key->after_ms;
    enum verdict verdict = TAP;

    if (!typed_by_another_within(press->key, key->roll_ms, press->at_ms) &&
        !typed_and_let_go_within(press->key, cell, key->tap, after_ms, press->at_ms)) {
        verdict = later(key->how, after_ms, press);
    }
    lets_go = verdict == LETS_GO;
    if (verdict == TAP || verdict == HOLD) {
        looked_at = 1;
    }
    return verdict == TAP ? key->tap : verdict == HOLD ? key->hold : SEE_THROUGH;
}

#endif
