#include "keyboard.h"

#include "actions.h"
#include "combination.h"
#include "events.h"
#include "layers.h"
#include "matrix.h"
#include "media_report.h"
#include "once.h"
#include "outlet.h"
#include "port.h"
#include "report.h"
#include "sizes.h"
#include "typed.h"

static bool host_knows; /* of all that was done */

void keyboard_start(void)
{
    host_knows = false;
    matrix_start();
    events_start();
    layers_start();
    actions_start();
    report_start();
    if (ONCE_KEYS != 0) {
        once_start();
    }
    if (MEDIA_KEYS != 0) {
        media_report_start();
    }
    if (HOLD_KEYS != 0) {
        combination_start();
    }
}

/* What had its time until then, and has ended. True if something has. */
static bool ended_by(moment at_ms)
{
    return ONCE_MS != 0 && once_ends(at_ms);
}

/* Nothing is to be done yet. */
static bool rest(void)
{
    moment now_ms = events_horizon();

    if (TAP_HOLDS != 0) {
        typed_forget(now_ms);
    }
    return ended_by(now_ms);
}

/* A function of its own even to the compilers, so that a turn without events does not save its registers. */
static __attribute__((noinline)) bool do_event(const struct event *event)
{
    return ended_by(event->at_ms) || actions_next();
}

/*
 * Do the next thing: the oldest event, or what has ended before it. False if there is nothing to do yet,
 * or the event is a press of which it is not decided what it means.
 */
static bool next_event(void)
{
    const struct event *event = events_at(0);

    return event != 0 ? do_event(event) : rest();
}

/* A report of media keys has just been given, or waits for the host to take it. */
static bool media_keys_hold(void)
{
    return MEDIA_KEYS != 0 && (media_report_give() || outlet_media_waits());
}

static void doubt(void)
{
    report_doubt();
    if (MEDIA_KEYS != 0) {
        media_report_doubt();
    }
}

/* One change to a report, so that the host sees each one. True if it knows of all. */
static bool tell_host(bool knows)
{
    while (knows || !(report_give() || media_keys_hold())) {
        if (!next_event()) {
            return true;
        }
        knows = false;
    }
    return false;
}

/* Do what there is to do by now, and tell the host. An edge that was just found is in a hurry where it takes long. */
static void catch_up(moment now_ms, bool edge)
{
    events_settle(now_ms);
    if (outlet_open()) {
        host_knows = outlet_free() && tell_host(MEDIA_KEYS != 0 && edge && host_knows);
        return;
    }
    doubt(); /* keep up with the keys, so that the state is true when it opens */
    host_knows = false;
    while (next_event()) {
    }
}

bool keyboard_step(void)
{
    uint16_t now_ms = port_milliseconds();
    bool pressed = false;
    enum sweep found;

    do {
        found = matrix_sweep((moment)now_ms);
        pressed |= found == SWEEP_PRESSED;
        catch_up((moment)now_ms, found != SWEEP_OVER);
    } while (found != SWEEP_OVER);
    if (REMEMBER_BASE != 0) {
        layers_keep();
    }
    if (HOLD_KEYS != 0) {
        combination_watch(now_ms);
    }
    return pressed;
}
