/*
 * A key remembers the action that its press found, so that its release undoes just that one,
 * whatever has happened to the layers between.
 *
 * What each kind of action does stands in a file of its own under behaviours/; here is the one place
 * that tells the kinds apart. The compiler refuses a switch that lacks one of them.
 */
#include "actions.h"

#include "behaviours/change_base.h"
#include "behaviours/hold_layer.h"
#include "behaviours/latch_layer.h"
#include "behaviours/media.h"
#include "behaviours/nothing.h"
#include "behaviours/once_layer.h"
#include "behaviours/once_modifiers.h"
#include "behaviours/press.h"
#include "behaviours/start_boot_loader.h"
#include "behaviours/tap_hold.h"
#include "behaviours/unlatch_layers.h"
#include "doing.h"
#include "layers.h"
#include "once.h"
#include "port_memory.h"
#include "tables.h"
#include "typed.h"

/* Although the switches below have a default, for a kind that is no kind. */
#pragma GCC diagnostic error "-Wswitch-enum"

void actions_start(void)
{
    doing_start();
    if (TAP_HOLDS != 0) {
        typed_start();
        tap_hold_start();
    }
}

static uint8_t low(uint16_t operand)
{
    return (uint8_t)operand;
}

static uint8_t high(uint16_t operand)
{
    return (uint8_t)(operand >> 8);
}

/* What the rest has to know of a press, after it: see report.c; `cell` and `done` as in typed.h. */
static void tell_press(const struct event *event, bool types, action_number cell, action_number done)
{
    if (ONCE_KEYS != 0 && types) {
        once_used(event->key);
    }
    if (TAP_HOLDS == 0) {
        return;
    }
    if (types) {
        typed_press(event->key, event->at_ms, cell, done);
    } else {
        typed_nothing(event->key);
    }
}

static void press(const struct event *event, action_number cell, action_number found)
{
    /*@ split found; */ /* for the proof: each action by itself */
    FLASH const struct action *action = action_list + found;
    uint8_t first = low(action->operand);
    uint8_t second = high(action->operand);
    bool types = false; /* sends a usage */

    doing[event->key] = found;
    switch ((enum action_kind)action->kind) {
    case ACTION_PRESS:
        press_down(first, second);
        types = first != 0;
        break;
    case ACTION_HOLD_LAYER:
        hold_layer_down(first);
        break;
    case ACTION_LATCH_LAYER:
        latch_layer_down(first);
        break;
    case ACTION_UNLATCH_LAYERS:
        unlatch_layers_down();
        break;
    case ACTION_ONCE_LAYER:
        once_layer_down(first);
        break;
    case ACTION_ONCE_MODIFIERS:
        once_modifiers_down(second);
        break;
    case ACTION_CHANGE_BASE:
        change_base_down(first, second);
        break;
    case ACTION_START_BOOT_LOADER:
        start_boot_loader_down();
        break;
    case ACTION_MEDIA:
        media_down(first);
        types = true;
        break;
    case ACTION_NOTHING:
        nothing_down();
        break;
    case ACTION_TAP_HOLD: /* one of its two actions comes here */
    default: /* a table of another engine */
        PORT_FAULT();
        break;
    }
    tell_press(event, types, cell, found);
}

/* Kinds whose release does nothing; any other has one below. Costs a chip nothing. */
static void has_no_release(enum action_kind kind)
{
    switch (kind) {
    case ACTION_LATCH_LAYER:
    case ACTION_UNLATCH_LAYERS:
    case ACTION_CHANGE_BASE:
    case ACTION_START_BOOT_LOADER:
    case ACTION_NOTHING:
        break;
    case ACTION_PRESS:
    case ACTION_MEDIA:
    case ACTION_HOLD_LAYER:
    case ACTION_ONCE_LAYER:
    case ACTION_ONCE_MODIFIERS:
    case ACTION_TAP_HOLD:
    default:
        PORT_FAULT();
        break;
    }
}

/*
 * Lets go of what no other key holds. `first` 0 is nothing to let go of, be it a usage (none has that
 * number), a media key, or a layer (the base layer is always on).
 */
static void release(const struct event *event)
{
    action_number done = doing[event->key];
    /*@ split done; */
    FLASH const struct action *action = action_list + done;
    uint8_t kind = action->kind;
    uint8_t first = low(action->operand);
    uint8_t second = high(action->operand);

    doing[event->key] = SEE_THROUGH;
    for (key_number other = 0; other < KEYS; other++) {
        if (doing[other] == SEE_THROUGH) { /* the most, and without a look at its action */
            continue;
        }
        action = action_list + doing[other];
        if (action->kind == kind) {
            second &= (uint8_t)~high(action->operand);
            if (low(action->operand) == first) {
                first = 0;
            }
        }
    }
    if (kind == ACTION_PRESS) {
        press_up(first, second);
    } else if (kind == ACTION_HOLD_LAYER) {
        hold_layer_up(first);
    } else if (ONCE_KEYS != 0 && kind == ACTION_ONCE_LAYER) {
        once_layer_up(first, event->at_ms);
    } else if (ONCE_KEYS != 0 && kind == ACTION_ONCE_MODIFIERS) {
        once_modifiers_up(second, event->at_ms);
    } else if (MEDIA_KEYS != 0 && kind == ACTION_MEDIA) {
        media_up(first);
    } else {
        has_no_release((enum action_kind)kind);
    }
}

/* What a key with this action does now; SEE_THROUGH if that is not decided. */
static action_number decided(const struct event *event, action_number cell)
{
    /*@ split cell; */
    FLASH const struct action *action = action_list + cell;

    if (TAP_HOLDS != 0 && action->kind == ACTION_TAP_HOLD) {
        return tap_hold_down(cell, action->operand, event);
    }
    return cell;
}

static void let_go(const struct event *event)
{
    release(event);
    if (ONCE_KEYS != 0) {
        once_key_up(event->key);
    }
    if (TAP_HOLDS != 0) {
        typed_release(event->key, event->at_ms);
    }
}

bool actions_next(void)
{
    const struct event *event = events_at(0);
    uint8_t place = 0;

    if (event->down) {
        action_number cell = layers_find(event->key);
        action_number found = decided(event, cell);
        if (TAP_HOLDS == 0 || found != SEE_THROUGH) {
            press(event, cell, found);
        } else {
            place = tap_hold_lets_go();
            event = events_at(place);
            if (place == 0 || event == 0) { /* the second is for the proof */
                return false;
            }
            let_go(event);
        }
    } else {
        let_go(event);
    }
    events_drop(place);
    return true;
}
