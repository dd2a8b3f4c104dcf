/*
 * A key remembers the action that its press found, so that its release undoes just that one,
 * whatever has happened to the layers between.
 *
 * What each kind of action does stands in a file of its own under behaviours/; here is the one place
 * that tells the kinds apart. The compiler refuses a switch that lacks one of them.
 */
#include "actions.h"

#include "behaviours/change_base.h"
#include "behaviours/first_second.h"
#include "behaviours/hold_layer.h"
#include "behaviours/in_turn.h"
#include "behaviours/latch_layer.h"
#include "behaviours/media.h"
#include "behaviours/nothing.h"
#include "behaviours/once_layer.h"
#include "behaviours/once_modifiers.h"
#include "behaviours/pointer.h"
#include "behaviours/press.h"
#include "behaviours/start_boot_loader.h"
#include "behaviours/tap_hold.h"
#include "behaviours/unlatch_layers.h"
#include "behaviours/with_modifier.h"
#include "doing.h"
#include "events.h"
#include "knobs.h"
#include "layers.h"
#include "once.h"
#include "port_memory.h"
#include "tables.h"
#include "together.h"
#include "turn.h"
#include "typed.h"

/* Although the switches below have a default, for a kind that is no kind. */
#pragma GCC diagnostic error "-Wswitch-enum"

void actions_start(void)
{
    doing_start();
#if HAS_TAP_HOLD
    typed_start();
    tap_hold_start();
#endif
#if HAS_FIRST_SECOND
    first_second_start();
#endif
#if HAS_WITH_MODIFIER
    with_modifier_start();
#endif
}

/* True if that types. */
static bool press(const struct event *event, action_number found)
{
#if HAS_WITH_MODIFIER
    found = with_modifier_down(found);
#endif
    /*@ split found; */ /* for the proof: each action by itself */
    FLASH const struct action *action = action_list + found;
    uint16_t operand = action->operand;
    bool types = false;

    (void)operand; /* a key that is dead has none */
    doing[event->key] = found;
    switch ((enum action_kind)action->kind) {
#if HAS_PRESS
    case ACTION_PRESS:
        press_down(low_byte(operand), high_byte(operand));
        types = low_byte(operand) != 0;
        break;
#endif
#if HAS_HOLD_LAYER
    case ACTION_HOLD_LAYER:
        hold_layer_down(low_byte(operand));
        break;
#endif
#if HAS_LATCH_LAYER
    case ACTION_LATCH_LAYER:
        latch_layer_down(low_byte(operand));
        break;
#endif
#if HAS_UNLATCH_LAYERS
    case ACTION_UNLATCH_LAYERS:
        unlatch_layers_down();
        break;
#endif
#if HAS_ONCE_LAYER
    case ACTION_ONCE_LAYER:
        once_layer_down(low_byte(operand));
        break;
#endif
#if HAS_ONCE_MODIFIERS
    case ACTION_ONCE_MODIFIERS:
        once_modifiers_down(high_byte(operand));
        break;
#endif
#if HAS_CHANGE_BASE
    case ACTION_CHANGE_BASE:
        change_base_down(low_byte(operand), high_byte(operand));
        break;
#endif
#if HAS_START_BOOT_LOADER
    case ACTION_START_BOOT_LOADER:
        start_boot_loader_down();
        break;
#endif
#if HAS_MEDIA
    case ACTION_MEDIA:
        media_down(low_byte(operand));
        types = true;
        break;
#endif
#if HAS_POINTER
    case ACTION_POINTER:
        pointer_down(low_byte(operand));
        types = pointer_types(low_byte(operand));
        break;
#endif
#if HAS_IN_TURN
    case ACTION_IN_TURN:
        in_turn_down(event->key, found, operand);
        types = true;
        break;
#endif
#if HAS_FIRST_SECOND
    case ACTION_FIRST_SECOND: /* the press has counted, and that is all */
        break;
#endif
#if HAS_NOTHING
    case ACTION_NOTHING:
        nothing_down();
        break;
#else
    case NO_ACTION:
#endif
#if HAS_TAP_HOLD
    case ACTION_TAP_HOLD: /* one of its two actions comes here */
#endif
#if HAS_WITH_MODIFIER
    case ACTION_WITH_MODIFIER: /* one of its actions comes here */
#endif
#if HAS_TOGETHER
    case ACTION_TOGETHER: /* a set's own action comes here */
#endif
    default: /* a table of another engine */
        PORT_FAULT();
        break;
    }
#if HAS_ONCE
    if (types) {
        once_used(event->key);
#if HAS_IN_TURN
        if (turn_runs()) { /* which is used up, and colours nothing */
            once_key_up(event->key);
        }
#endif
    }
#endif
    return types;
}

/*
 * Lets go of what no other key holds. `low` 0 is nothing to let go of: no usage has that number, nor has any
 * layer that a key turns on.
 */
#if HAS_TOGETHER
static void release_doer(const struct event *event)
#else
static void release(const struct event *event)
#endif
{
    action_number done = doing[event->key];
    /*@ split done; */
    FLASH const struct action *action = action_list + done;
    uint8_t kind = action->kind;
    uint8_t low = low_byte(action->operand);
#if HAS_PRESS || HAS_ONCE_MODIFIERS
    uint8_t high = high_byte(action->operand);
#endif

    doing[event->key] = SEE_THROUGH;
    for (key_number other = 0; other < KEYS; other++) {
#if HAS_KNOBS
        if ((other & 31) == 0) {
            knobs_look(); /* there may be many keys */
        }
#endif
        if (doing[other] == SEE_THROUGH) { /* the most, and without a look at its action */
            continue;
        }
        action = action_list + doing[other];
        if (action->kind == kind) {
#if HAS_PRESS || HAS_ONCE_MODIFIERS
            high &= (uint8_t)~high_byte(action->operand);
#endif
            if (low_byte(action->operand) == low) {
                low = 0;
            }
        }
    }
    switch ((enum action_kind)kind) {
#if HAS_PRESS
    case ACTION_PRESS:
        press_up(low, high);
        break;
#endif
#if HAS_HOLD_LAYER
    case ACTION_HOLD_LAYER:
        hold_layer_up(low);
        break;
#endif
#if HAS_ONCE_LAYER
    case ACTION_ONCE_LAYER:
        once_layer_up(low, event->at_ms);
        break;
#endif
#if HAS_ONCE_MODIFIERS
    case ACTION_ONCE_MODIFIERS:
        once_modifiers_up(high, event->at_ms);
        break;
#endif
#if HAS_MEDIA
    case ACTION_MEDIA:
        media_up(low);
        break;
#endif
#if HAS_POINTER
    case ACTION_POINTER:
        pointer_up(low);
        break;
#endif
#if HAS_LATCH_LAYER
    case ACTION_LATCH_LAYER: /* its release does nothing */
        break;
#endif
#if HAS_UNLATCH_LAYERS
    case ACTION_UNLATCH_LAYERS: /* its release does nothing */
        break;
#endif
#if HAS_CHANGE_BASE
    case ACTION_CHANGE_BASE: /* its release does nothing */
        break;
#endif
#if HAS_START_BOOT_LOADER
    case ACTION_START_BOOT_LOADER: /* its release does nothing */
        break;
#endif
#if HAS_IN_TURN
    case ACTION_IN_TURN: /* its release does nothing */
        break;
#endif
#if HAS_FIRST_SECOND
    case ACTION_FIRST_SECOND: /* its release does nothing */
        break;
#endif
#if HAS_WITH_MODIFIER
    case ACTION_WITH_MODIFIER: /* the key was over before its release */
        break;
#endif
#if HAS_TOGETHER
    case ACTION_TOGETHER: /* the first key of a set comes here, which a proof cannot know */
#endif
#if HAS_NOTHING
    case ACTION_NOTHING: /* its release does nothing */
        break;
#else
    case NO_ACTION: /* no release comes without its press, which a proof cannot know */
        break;
#endif
#if HAS_TAP_HOLD
    case ACTION_TAP_HOLD:
#endif
    default:
        PORT_FAULT();
        break;
    }
#if HAS_ONCE
    once_key_up(event->key);
#endif
#if HAS_WITH_MODIFIER
    with_modifier_key_up(event->key);
#endif
#if HAS_TAP_HOLD
    typed_release(event->key, event->at_ms);
#endif
}

#if HAS_TOGETHER
/* The same of a key that may have gone down with others: what they do ends with the first of them. */
static void release(const struct event *event)
{
    struct event first;

    first.at_ms = event->at_ms;
    first.key = together_leave(event->key);
    first.down = false;
    if (first.key != NO_KEY) {
        release_doer(&first);
    }
    together_left(event->key, first.key);
}
#endif

#if HAS_WITH_MODIFIER
/* Before a press: end what hides modifiers, or hide those that this one has to. True if that was to do. */
static bool makes_way(const struct event *event, action_number found)
{
    struct event over;

    over.key = with_modifier_ended(event->key, found);
    if (over.key == NO_KEY) {
        return with_modifier_hides(event->key, found);
    }
    over.at_ms = event->at_ms;
    over.down = false;
#if HAS_TOGETHER
    release_doer(&over);
#else
    release(&over);
#endif
    doing[over.key] = with_modifier_done();
    return true;
}
#endif

#if HAS_TAP_HOLD || HAS_FIRST_SECOND
/* What a key with this action does now; SEE_THROUGH if that is not decided. */
static action_number decided(const struct event *event, action_number cell)
{
    /*@ split cell; */
    FLASH const struct action *action = action_list + cell;

#if HAS_TAP_HOLD
    if (action->kind == ACTION_TAP_HOLD) {
        return tap_hold_down(cell, action->operand, event);
    }
#endif
#if HAS_FIRST_SECOND
    if (action->kind == ACTION_FIRST_SECOND) {
        return first_second_down(cell, action->operand, event);
    }
#endif
    return cell;
}

/* `cell` is what the layers give the key. */
static void press_decided(const struct event *event, action_number cell, action_number found)
{
#if HAS_FIRST_SECOND
    first_second_pressed(cell, found);
#endif
#if HAS_TAP_HOLD
    if (press(event, found)) {
        typed_press(event->key, event->at_ms, cell, found);
    } else {
        typed_nothing(event->key);
    }
#else
    press(event, found);
#endif
#if HAS_TOGETHER
    together_done();
#endif
}
#endif

#if HAS_TOGETHER
/* The oldest press as that of one key, which may be the first of several; false if that is open. */
static bool pressed_as(const struct event *event, struct event *whole)
{
#if HAS_FIRST_SECOND
    if (first_second_goes_on()) {
        together_alone();
    }
#endif
    if (!together_decided(event)) {
        return false;
    }
    whole->at_ms = event->at_ms;
    whole->key = together_key(event->key);
    whole->down = true;
    return true;
}
#endif

#if HAS_TAP_HOLD || HAS_FIRST_SECOND
/* After a press was not decided: the place of a release that goes first, 0 if there is none. */
static uint8_t goes_first(void)
{
    uint8_t place = 0;
#if HAS_TAP_HOLD
    place = tap_hold_lets_go();
#endif
#if HAS_FIRST_SECOND
    place |= first_second_lets_go(); /* of the two, one is 0 */
#endif
    return place;
}
#endif

bool actions_next(void)
{
    const struct event *event = events_at(0);
    uint8_t place = 0;

#if HAS_KNOBS
    knobs_look();
#endif
#if HAS_TOGETHER
    struct event whole;
    if (event->down) {
        if (!pressed_as(event, &whole)) {
            return false;
        }
        event = &whole;
    }
#endif
    if (event->down) {
#if HAS_TOGETHER
        action_number found = together_action(event->key);
#else
        action_number found = layers_find(event->key);
#endif
#if HAS_FIRST_SECOND
        found = first_second_cell(found);
#endif
#if HAS_TAP_HOLD || HAS_FIRST_SECOND
        action_number cell = found;
        found = decided(event, cell);
#endif
#if HAS_WITH_MODIFIER
        if (found != SEE_THROUGH && makes_way(event, found)) {
            return true;
        }
#endif
#if HAS_TAP_HOLD || HAS_FIRST_SECOND
        if (found != SEE_THROUGH) {
            press_decided(event, cell, found);
        } else {
            place = goes_first();
            event = events_at(place);
            if (place == 0 || event == 0) { /* the second is for the proof */
                return false;
            }
            release(event);
        }
#else
        press(event, found);
#if HAS_TOGETHER
        together_done();
#endif
#endif
    } else {
        release(event);
    }
    events_drop(place);
    return true;
}

#if HAS_KNOBS
/* A step has no time of its own: it is done before the next event, and after all that went before that. */
static void step_event(struct event *event)
{
#if HAS_TIMES
    const struct event *next = events_at(0);

    event->at_ms = next != 0 ? next->at_ms : events_horizon();
#else
    event->at_ms = 0;
#endif
    event->key = knobs_step();
    event->down = true;
}

bool actions_step_on(void)
{
    struct event event;

    step_event(&event);
    if (event.key >= KEYS) { /* NO_KEY; a proof has to see that all else is a key */
        return false;
    }
    knobs_look(); /* a scan has gone before, and a report comes after */
    if (knobs_go_down()) {
        press(&event, layers_find(event.key)); /* it types nothing that a key of two meanings asks for */
    } else {
        release(&event);
    }
    return true;
}

bool actions_step(void)
{
    if (actions_step_on()) {
        return true;
    }
    knobs_begin();
#if HAS_WITH_MODIFIER
    struct event event;

    step_event(&event);
    if (event.key < KEYS && makes_way(&event, layers_find(event.key))) {
        return true;
    }
#endif
    return actions_step_on();
}
#endif

#if HAS_IN_TURN
bool actions_own_event(void)
{
    struct event event;

    if (!events_take(turn_key(), &event)) {
        return false;
    }
    if (event.down) {
        turn_stop();
        doing[event.key] = turn_done();
#if HAS_TAP_HOLD
        typed_nothing(event.key);
#endif
    } else {
        release(&event);
    }
    return true;
}
#endif
