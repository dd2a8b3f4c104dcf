#include "knobs.h"

#include "port.h"
#include "tables.h"

#if HAS_KNOBS

_Static_assert(KNOBS >= 1 && KNOBS <= 8, "a set of knobs has two bits for each");

enum { MOST_WAITING = 127 }; /* steps of one knob */

struct knob {
    int8_t part;    /* states of a step that are through, those to the left below 0 */
    int8_t waiting; /* steps to the right, or below 0 to the left */
    bool leftwards; /* the last step */
};

static struct knob knobs[KNOBS];
static knob_set seen; /* as port_knobs() has it */
static key_number current; /* the step that has begun, as a key */
static bool is_down;

void knobs_start(void)
{
    for (uint8_t number = 0; number < KNOBS; number++) {
        knobs[number].leftwards = false;
    }
    current = NO_KEY;
    knobs_forget();
}

void knobs_forget(void)
{
    for (uint8_t number = 0; number < KNOBS; number++) {
        knobs[number].part = 0;
        knobs[number].waiting = 0;
    }
    seen = port_knobs();
}

/* The place of two contacts among the four states, in the order of a turn to the right. */
static uint8_t place_of(uint8_t contacts)
{
    return contacts ^ (uint8_t)(contacts >> 1);
}

/*
 * How many states lie between two readings. Two, if both contacts have changed: they never do at once, so one
 * was missed, and the knob goes on as it went. Whichever way that was, what is counted stays true to the
 * contacts, since four states on or back are the same.
 */
static int8_t moved(const struct knob *knob, uint8_t before, uint8_t after)
{
    uint8_t places = (uint8_t)(place_of(after) - place_of(before)) & 3;

    if (places == 3) {
        return -1;
    }
    if (places == 2 && (knob->part < 0 || (knob->part == 0 && knob->leftwards))) {
        return -2;
    }
    return (int8_t)places;
}

static void step(struct knob *knob, bool leftwards)
{
    knob->leftwards = leftwards;
    if (leftwards && knob->waiting > -MOST_WAITING) {
        knob->waiting--;
    } else if (!leftwards && knob->waiting < MOST_WAITING) {
        knob->waiting++;
    }
}

static void turn(uint8_t number, uint8_t before, uint8_t after)
{
    struct knob *knob = &knobs[number];
    int8_t states = (int8_t)knob_states[number];
    int8_t part = (int8_t)(knob->part + moved(knob, before, after));

    if (part >= states) {
        part = (int8_t)(part - states);
        step(knob, false);
    } else if (part <= -states) {
        part = (int8_t)(part + states);
        step(knob, true);
    }
    knob->part = part;
}

void knobs_look(void)
{
    knob_set before = seen, after = port_knobs();

    if (before == after) { /* nearly always */
        return;
    }
    seen = after;
    for (uint8_t number = 0; number < KNOBS; number++) {
        turn(number, before & 3, after & 3);
        before = (knob_set)(before >> 2);
        after = (knob_set)(after >> 2);
    }
}

static void begin(key_number key)
{
    current = key;
    is_down = false;
}

void knobs_begin(void)
{
    key_number left = FIRST_STEP;

    for (uint8_t number = 0; number < KNOBS; number++) {
        struct knob *knob = &knobs[number];
        if (knob->waiting < 0) {
            knob->waiting++;
            begin(left);
            return;
        }
        if (knob->waiting > 0) {
            knob->waiting--;
            begin((key_number)(left + 1));
            return;
        }
        left = (key_number)(left + 2);
    }
}

key_number knobs_step(void)
{
    return current;
}

bool knobs_go_down(void)
{
    is_down = !is_down;
    if (!is_down) {
        current = NO_KEY;
    }
    return is_down;
}

#endif
