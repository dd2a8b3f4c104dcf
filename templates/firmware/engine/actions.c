/*
 * A key remembers the action that its press found, so that its release undoes just that one,
 * whatever has happened to the layers between.
 *
 * What each kind of action does stands in a file of its own under behaviours/; here is the one place
 * that tells the kinds apart. The compiler refuses a switch that lacks one of them.
 */
#include "actions.h"

#include "behaviours/hold_layer.h"
#include "behaviours/latch_layer.h"
#include "behaviours/nothing.h"
#include "behaviours/press.h"
#include "behaviours/start_boot_loader.h"
#include "layers.h"
#include "port_memory.h"
#include "tables.h"

/* Although the switches below have a default, for a kind that is no kind. */
#pragma GCC diagnostic error "-Wswitch-enum"

static action_number doing[KEYS]; /* SEE_THROUGH: the key is up */

void actions_start(void)
{
    for (key_number key = 0; key < KEYS; key++) {
        doing[key] = SEE_THROUGH;
    }
}

static void press(key_number key)
{
    action_number found = layers_find(key);
    /*@ split found; */ /* for the proof: each action by itself */
    FLASH const struct action *action = action_list + found;

    doing[key] = found;
    switch ((enum action_kind)action->kind) {
    case ACTION_PRESS:
        press_down(action->first, action->second);
        break;
    case ACTION_HOLD_LAYER:
        hold_layer_down(action->first);
        break;
    case ACTION_LATCH_LAYER:
        latch_layer_down(action->first);
        break;
    case ACTION_BOOT_LOADER:
        start_boot_loader_down();
        break;
    case ACTION_NOTHING:
        nothing_down();
        break;
    default: /* a table of another engine */
        PORT_FAULT();
        break;
    }
}

/* Kinds whose release does nothing; any other has one below. Costs a chip nothing. */
static void has_no_release(enum action_kind kind)
{
    switch (kind) {
    case ACTION_LATCH_LAYER:
    case ACTION_BOOT_LOADER:
    case ACTION_NOTHING:
        break;
    case ACTION_PRESS:
    case ACTION_HOLD_LAYER:
    default:
        PORT_FAULT();
        break;
    }
}

/*
 * Lets go of what no other key holds. `first` 0 is nothing to let go of, be it a usage (none has that
 * number) or a layer (the base layer is always on).
 */
static void release(key_number key)
{
    action_number done = doing[key];
    /*@ split done; */
    FLASH const struct action *action = action_list + done;
    uint8_t kind = action->kind;
    uint8_t first = action->first;
    uint8_t second = action->second;

    doing[key] = SEE_THROUGH;
    for (key_number other = 0; other < KEYS; other++) {
        if (doing[other] == SEE_THROUGH) { /* the most, and without a look at its action */
            continue;
        }
        action = action_list + doing[other];
        if (action->kind == kind) {
            second &= (uint8_t)~action->second;
            if (action->first == first) {
                first = 0;
            }
        }
    }
    if (kind == ACTION_PRESS) {
        press_up(first, second);
    } else if (kind == ACTION_HOLD_LAYER) {
        hold_layer_up(first);
    } else {
        has_no_release((enum action_kind)kind);
    }
}

void actions_key(key_number key, bool down)
{
    if (down) {
        press(key);
    } else {
        release(key);
    }
}
