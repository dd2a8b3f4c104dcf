/*
 * A key remembers the action that its press found, so that its release undoes just that one,
 * whatever has happened to the layers between.
 */
#include "actions.h"

#include "layers.h"
#include "port.h"
#include "report.h"
#include "tables.h"

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
    FLASH const struct action *action = action_list + found;

    doing[key] = found;
    switch (action->kind) {
    case ACTION_PRESS:
        report_press(action->first, action->second);
        break;
    case ACTION_HOLD_LAYER:
        layers_hold(action->first);
        break;
    case ACTION_LATCH_LAYER:
        layers_latch(action->first);
        break;
    case ACTION_BOOT_LOADER:
        if (BOOT_LOADER_KEYS != 0) {
            port_boot_loader();
        }
        break;
    default:
        break;
    }
}

/*
 * Lets go of what no other key holds. `first` 0 is nothing to let go of, be it a usage (none has that
 * number) or a layer (the base layer is always on).
 */
static void release(key_number key)
{
    FLASH const struct action *action = action_list + doing[key];
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
        report_lift(first, second);
    } else if (kind == ACTION_HOLD_LAYER) {
        layers_let_go(first);
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
