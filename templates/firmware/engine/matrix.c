/*
 * A press is accepted in the scan that first reads it closed, if two more readings say the same,
 * each after the line was driven anew. A spark, or the edge of a neighbouring line, lasts less than
 * that on hand wiring (calculated: 25 of 60 pF between neighbours; no published source). It costs a
 * few microseconds, in a scan that finds a press and in no other. A release is accepted once the
 * key has read open for more than DEBOUNCE_MS milliseconds without one closed reading.
 *
 * Each driven line keeps its keys as bit masks, so that a line on which nothing happens costs one
 * comparison. Only a key that reads otherwise than it was accepted is looked at alone.
 */
#include "matrix.h"

#include "events.h"
#include "port.h"
#include "tables.h"

/* The stamps below are 8 bits wide, and a nap while the bus sleeps takes about 20 ms. */
_Static_assert(DEBOUNCE_MS >= 1 && DEBOUNCE_MS <= 200, "the debounce time does not fit the stamps");

enum { LOOKS = 3 }; /* readings that make a press */

struct line {
    line_set down;    /* accepted as closed                                */
    line_set opening; /* of those: reads open, but not yet for long enough */
};

static struct line lines[DRIVE_LINES];
static uint8_t open_since[KEYS]; /* of an opening key: the millisecond of its first open reading */

void matrix_start(void)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        lines[drive].down = 0;
        lines[drive].opening = 0;
    }
}

/* Whether an opening key is to be taken as released now. */
static bool release_is_due(key_number key, uint8_t now)
{
    if ((uint8_t)(now - open_since[key]) <= DEBOUNCE_MS) {
        return false;
    }
    if (events_add(key, false)) {
        return true;
    }
    /* The queue is full: keep the key due, however long it takes, although the stamps wrap. */
    open_since[key] = (uint8_t)(now - (DEBOUNCE_MS + 1));
    return false;
}

/*
 * Work through the keys of one line that changed or are opening; `key` is that of sensed line 0. A
 * function of its own even to the compiler, so that the scan of a quiet line keeps its registers.
 */
__attribute__((noinline)) static bool line_changes(
    struct line *line, line_set reading, FLASH const key_number *key, uint8_t now)
{
    line_set is_down = line->down;
    line_set is_opening = line->opening;
    line_set busy = (line_set)((reading ^ is_down) | is_opening);
    bool pressed = false;

    line_set bit = 1;
    for (uint8_t sense = 0; sense < SENSE_LINES && busy != 0; sense++, bit = (line_set)(bit << 1), key++) {
        bool is_quiet = (busy & 1) == 0;
        busy = (line_set)(busy >> 1);
        if (is_quiet) {
            continue;
        }
        if (*key == NO_KEY) { /* a short, not a key: remember it, so that it costs no more time */
            is_down ^= bit;
        } else if ((reading & is_down & bit) != 0) {
            is_opening ^= bit; /* it bounced */
        } else if ((reading & bit) != 0) {
            if (events_add(*key, true)) {
                is_down |= bit;
                pressed = true;
            }
        } else if ((is_opening & bit) == 0) {
            is_opening |= bit;
            open_since[*key] = now;
        } else if (release_is_due(*key, now)) {
            is_opening ^= bit;
            is_down ^= bit;
        }
    }
    line->down = is_down;
    line->opening = is_opening;
    return pressed;
}

bool matrix_any_closed(void)
{
    line_set any = 0;

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        any |= lines[drive].down & (line_set)~lines[drive].opening;
    }
    return any != 0;
}

bool matrix_is_down(uint8_t drive, line_set sense)
{
    return (lines[drive].down & sense) != 0;
}

bool matrix_sweep(void)
{
    struct line *line = lines;
    FLASH const key_number *line_keys = key_at;
    uint8_t now = (uint8_t)port_milliseconds();
    bool pressed = false;

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        line_set reading = (line_set)~0u;
        uint8_t looks = LOOKS;
        do {
            port_line_low(drive);
            reading &= port_sense();
            port_line_free(drive);
        } while ((reading & (line_set)~line->down) != 0 && --looks != 0);
        if (reading != line->down || line->opening != 0) {
            pressed |= line_changes(line, reading, line_keys, now);
        }
        line++;
        line_keys += SENSE_LINES;
    }
    return pressed;
}
