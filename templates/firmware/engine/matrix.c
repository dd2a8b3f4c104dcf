/*
 * An edge is told to the events in the scan that first reads it; a press if two more readings say the
 * same, each after the line was driven anew. A spark, or the edge of a neighbouring line, lasts less
 * than that on hand wiring (calculated: 25 of 60 pF between neighbours; no published source). It costs a
 * few microseconds, in a scan that finds a press and in no other. What chatters is for events.c.
 *
 * Each driven line keeps its keys as a bit mask, so that a line on which nothing happens costs one
 * comparison. Only a key that reads otherwise than before is looked at alone.
 */
#include "matrix.h"

#include "events.h"
#include "port.h"
#include "tables.h"

_Static_assert(DEBOUNCE_MS >= 1 && DEBOUNCE_MS <= 200, "the debounce time is out of range");

enum { LOOKS = 3 }; /* readings that make a press */

static line_set closed[DRIVE_LINES]; /* as the events were told */

void matrix_start(void)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        closed[drive] = 0;
    }
}

/*
 * Tell the events of the keys of one line that changed; `key` is that of sensed line 0. Returns what is
 * closed now. A function of its own even to the compiler, so that the scan of a quiet line keeps its
 * registers.
 */
__attribute__((noinline)) static bool line_changes(
    line_set *line, line_set reading, FLASH const key_number *key, moment now_ms)
{
    line_set is_closed = *line;
    line_set changed = reading ^ is_closed;
    bool pressed = false;

    line_set bit = 1;
    for (uint8_t sense = 0; sense < SENSE_LINES && changed != 0; sense++, bit = (line_set)(bit << 1), key++) {
        bool is_quiet = (changed & 1) == 0;
        changed = (line_set)(changed >> 1);
        if (is_quiet) {
            continue;
        }
        bool down = (reading & bit) != 0;
        /* NO_KEY is a short, not a key: it is remembered, so that it costs no more time */
        enum edge edge = *key == NO_KEY ? EDGE_TAKEN_BACK : events_edge(*key, down, now_ms);
        if (edge != EDGE_REFUSED) {
            is_closed ^= bit;
            pressed |= down && edge == EDGE_ADDED;
        }
    }
    *line = is_closed;
    return pressed;
}

bool matrix_any_closed(void)
{
    line_set any = 0;

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        any |= closed[drive];
    }
    return any != 0;
}

bool matrix_is_closed(uint8_t drive, line_set sense)
{
    return (closed[drive] & sense) != 0;
}

bool matrix_sweep(moment now_ms)
{
    line_set *line = closed;
    FLASH const key_number *line_keys = key_at;
    bool pressed = false;

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        line_set reading = (line_set)~(line_set)0;
        uint8_t looks = LOOKS;
        do {
            port_line_low(drive);
            reading &= port_sense();
            port_line_free(drive);
        } while ((reading & (line_set)~*line) != 0 && --looks != 0);
        if (reading != *line) {
            pressed |= line_changes(line, reading, line_keys, now_ms);
        }
        line++;
        line_keys += SENSE_LINES;
    }
    return pressed;
}
