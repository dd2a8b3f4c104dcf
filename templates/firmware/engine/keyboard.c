#include "keyboard.h"

#include "actions.h"
#include "combination.h"
#include "events.h"
#include "knobs.h"
#include "layers.h"
#include "matrix.h"
#include "media_report.h"
#include "once.h"
#include "pointer_report.h"
#include "port.h"
#include "report.h"
#include "sizes.h"
#include "together.h"
#include "transport.h"
#include "turn.h"
#include "typed.h"

#if HAS_SECOND_INTERFACE
static bool host_knows; /* of all that was done, in a protocol */
static bool known_boot; /* which one                           */
#endif

void keyboard_start(void)
{
    matrix_start();
    events_start();
#if HAS_LAYERS
    layers_start();
#endif
    actions_start();
#if HAS_KNOBS
    knobs_start();
#endif
    report_start();
#if HAS_ONCE
    once_start();
#endif
#if HAS_TOGETHER
    together_start();
#endif
#if HAS_IN_TURN
    turn_start();
#endif
#if HAS_SECOND_INTERFACE
    host_knows = false;
#endif
#if HAS_MEDIA
    media_report_start();
#endif
#if HAS_POINTER
    pointer_start();
#endif
#if HAS_COMBINATION
    combination_start();
#endif
}

#if HAS_TIMES
/* What had its time until then, and has ended. True if something has. */
static bool ended_by(moment at_ms)
{
#if HAS_ONCE_END
    return once_ends(at_ms);
#else
    (void)at_ms;
    return false;
#endif
}

/* Nothing is to be done yet. */
static bool rest(void)
{
    moment now_ms = events_horizon();

#if HAS_TAP_HOLD
    typed_forget(now_ms);
#endif
    return ended_by(now_ms);
}
#endif

#if HAS_IN_TURN
/* Go on with what is typed in turn, or with the key that types it. */
static __attribute__((noinline)) bool go_on_in_turn(void)
{
#if HAS_TAP_HOLD
    const struct event *event = events_at(0);
#endif

    if (!transport_open()) {
        turn_drop();
        return true;
    }
#if HAS_TAP_HOLD
    typed_forget(event != 0 ? event->at_ms : events_horizon());
#endif
#if HAS_KNOBS
    knobs_look();
#endif
    return actions_own_event() || turn_next();
}
#endif

/* A function of its own even to the compilers, so that a turn without events does not save its registers. */
#if HAS_TIMES
static __attribute__((noinline)) bool do_event(const struct event *event)
{
#if HAS_KNOBS
    if (actions_step_on()) { /* in a report of its own: the key may press what it pressed */
        return true;
    }
#endif
    return ended_by(event->at_ms) || actions_next();
}

/*
 * Do the next thing: the oldest event, or what has ended before it. False if there is nothing to do yet,
 * or the event is a press of which it is not decided what it means.
 */
static bool next_event(void)
{
    const struct event *event = events_at(0);

#if HAS_IN_TURN
    if (turn_runs()) {
        return go_on_in_turn();
    }
#endif
    return event != 0 ? do_event(event) : rest();
}
#else
static __attribute__((noinline)) bool do_event(void)
{
#if HAS_KNOBS
    if (actions_step_on()) { /* in a report of its own: the key may press what it pressed */
        return true;
    }
#endif
    return actions_next();
}

/* Do the oldest event; false if there is none. */
static bool next_event(void)
{
#if HAS_IN_TURN
    if (turn_runs()) {
        return go_on_in_turn();
    }
#endif
    if (events_at(0) == 0) {
        return false;
    }
    return do_event();
}
#endif

#if HAS_POINTER
/* Tell of a media key or a button that has gone down or up; true if a report has been given. */
static bool tell_of_others(void)
{
#if HAS_MEDIA
    bool told = media_report_give() || pointer_give();
#else
    bool told = pointer_give();
#endif

    if (told) {
        pointer_told();
    }
    return told;
}

/* A report has just been given, or waits for the host to take it, and does more than move. */
static bool report_holds(void)
{
    return report_give() || tell_of_others() || (!pointer_only_moves() && transport_media_waits());
}
#endif

#if HAS_MEDIA && !HAS_POINTER
/* A report has just been given, or waits for the host to take it. */
static bool report_holds(void)
{
    return report_give() || media_report_give() || transport_media_waits();
}
#endif

/* One change to a report, so that the host sees each one. */
static void tell_host(void)
{
#if HAS_SECOND_INTERFACE
    while (host_knows || !report_holds()) {
        host_knows = !next_event();
        if (host_knows) {
            known_boot = transport_boot_protocol();
            return;
        }
    }
#else
    while (!report_give() && next_event()) {
    }
#endif
}

/* Do what there is to do by now, and tell the host. */
static void catch_up(moment now_ms)
{
    events_settle(now_ms);
    if (!transport_open()) { /* keep up with the keys, so that the state is true when it opens */
        report_resync();
#if HAS_MEDIA
        media_report_resync();
#endif
        while (next_event()) {
        }
#if HAS_KNOBS
        knobs_forget();
        while (actions_step_on()) {
        }
#endif
    } else if (transport_free()) {
        tell_host();
    }
#if HAS_POINTER
    pointer_move();
#endif
}

#if HAS_KNOBS
/* Nothing is left to do or to tell of keys. */
static bool keys_are_done(void)
{
#if HAS_IN_TURN
    if (turn_runs()) {
        return false;
    }
#endif
#if HAS_SECOND_INTERFACE
    return host_knows && events_none();
#else
    return transport_free() && events_none();
#endif
}

/* Once a scan, a step of a knob goes down or up: then the host sees each. */
static void turn_knobs(void)
{
    if (transport_open() && keys_are_done() && actions_step()) {
#if HAS_SECOND_INTERFACE
        host_knows = false;
#endif
        tell_host();
#if HAS_POINTER
        pointer_move();
#endif
    }
}
#endif

bool keyboard_step(void)
{
    uint16_t now_ms = port_milliseconds();
    bool pressed = false;
    enum sweep found;

#if HAS_IN_TURN
    turn_watch(now_ms);
#endif
#if HAS_POINTER
    pointer_pass(now_ms);
#endif
    do {
#if HAS_KNOBS
        knobs_look(); /* after each edge too: there may be many in a turn */
#endif
        found = matrix_sweep((moment)now_ms);
        pressed |= found == SWEEP_PRESSED;
#if HAS_SECOND_INTERFACE
        if (found == SWEEP_OVER || transport_boot_protocol() != known_boot) {
            host_knows = false; /* an edge does not ask again what it knows: that takes long */
        }
#endif
        catch_up((moment)now_ms);
    } while (found != SWEEP_OVER);
#if HAS_KNOBS
    turn_knobs();
#endif
#if HAS_REMEMBERED_BASE
    layers_keep();
#endif
#if HAS_COMBINATION
    combination_watch(now_ms);
#endif
    return pressed;
}
