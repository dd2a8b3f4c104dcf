#include "keyboard.h"

#include "actions.h"
#include "combination.h"
#include "events.h"
#include "layers.h"
#include "matrix.h"
#include "outlet.h"
#include "report.h"
#include "sizes.h"

void keyboard_start(void)
{
    matrix_start();
    events_start();
    layers_start();
    actions_start();
    report_start();
    if (HOLD_KEYS != 0) {
        combination_start();
    }
}

static bool next_event(void)
{
    struct event event;

    if (!events_take(&event)) {
        return false;
    }
    actions_key(event.key, event.down);
    return true;
}

bool keyboard_step(void)
{
    bool pressed = matrix_sweep();

    if (HOLD_KEYS != 0) {
        combination_watch();
    }
    if (!outlet_open()) { /* keep up with the keys, so that the state is true when it opens */
        report_doubt();
        while (next_event()) {
        }
    } else if (outlet_free()) { /* one change to a report, so that the host sees each one */
        while (!report_give() && next_event()) {
        }
    }
    return pressed;
}
