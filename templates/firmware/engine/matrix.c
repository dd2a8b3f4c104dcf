/*
 * An edge is told to the events in the scan that first reads it; a press if two more readings say the
 * same, each after the line was driven anew. A spark, or the edge of a neighbouring line, lasts less
 * than that on hand wiring (calculated: 25 of 60 pF between neighbours; no published source). It costs a
 * few microseconds, in a scan that finds a press and in no other. What chatters is for events.c.
 *
 * A line that reads as it did is the port's affair, which knows what to expect. The first that does not is
 * looked at here, and so are those after it, up to the scan's end: there are few such scans.
 */
#include "matrix.h"

#include "events.h"
#include "knobs.h"
#include "port.h"
#include "tables.h"

_Static_assert(DEBOUNCE_MS >= 1 && DEBOUNCE_MS <= 200, "the debounce time is out of range");

enum { LOOKS = 3 }; /* readings that make a press */

static line_set closed[DRIVE_LINES]; /* as the events were told */
static uint8_t next;                 /* in this scan; 0: none was looked at here, as after each scan */
static bool pressed;                 /* a key of the line that is looked at, newly */

void matrix_start(void)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        closed[drive] = 0;
        port_expect(drive, 0);
    }
}

/*
 * Tell the events of an edge; false if they have no room for it. A function of its own even to the
 * compilers, so that the search for the key that changed keeps its registers.
 */
static __attribute__((noinline)) bool tell(key_number key, bool down, moment now_ms)
{
    if (key == NO_KEY) { /* a short, not a key: it is remembered, so that it costs no more time */
        return true;
    }
#if HAS_KNOBS
    knobs_look(); /* as many edges as a line has keys may come at once */
#endif
    enum edge edge = events_edge(key, down, now_ms);
    if (down && edge == EDGE_ADDED) {
        pressed = true;
    }
    return edge != EDGE_REFUSED;
}

/* Tell the events of the keys of one line that changed. */
static void line_changes(uint8_t drive, line_set reading, moment now_ms)
{
    line_set changed = reading ^ closed[drive];
    line_set bit = 1;

    for (uint8_t sense = 0; sense < SENSE_LINES && changed != 0; sense++) {
        if ((changed & 1) != 0 && tell(key_at[drive * SENSE_LINES + sense], (reading & bit) != 0, now_ms)) {
            closed[drive] ^= bit;
        }
        changed = (line_set)(changed >> 1);
        bit = (line_set)(bit << 1);
    }
}

/* The next line that reads otherwise than before, or may do so; DRIVE_LINES if there is none. */
static uint8_t next_line(line_set *reading)
{
    if (next == 0) {
        return port_scan(reading);
    }
    port_expect((uint8_t)(next - 1), closed[next - 1]); /* not before what was found there was told */
    if (next >= DRIVE_LINES) {
        return DRIVE_LINES;
    }
#if HAS_KNOBS
    knobs_look(); /* lines that are read one by one take longer */
#endif
    *reading = port_read(next, 1);
    return next;
}

enum sweep matrix_sweep(moment now_ms)
{
    line_set reading = 0; /* a proof has to see that it never is what nobody read */
    uint8_t drive;

    while ((drive = next_line(&reading)) < DRIVE_LINES) {
        next = (uint8_t)(drive + 1);
        if ((reading & (line_set)~closed[drive]) != 0) {
            reading &= port_read(drive, LOOKS - 1);
        }
        if (reading != closed[drive]) {
            pressed = false;
            line_changes(drive, reading, now_ms);
            return pressed ? SWEEP_PRESSED : SWEEP_CHANGED;
        }
    }
    next = 0;
    return SWEEP_OVER;
}

bool matrix_any_closed(void)
{
    line_set any = 0;

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        any |= closed[drive];
    }
    return any != 0;
}

#if HAS_COMBINATION
bool matrix_is_closed(uint8_t drive, line_set sense)
{
    return (closed[drive] & sense) != 0;
}
#endif
