/*
 * The distance is counted in parts of a step, POINTER_UNIT or WHEEL_UNIT of which are one. Each millisecond
 * adds as many as the speed has, which grows by as many each time; so the sum is that of the curve, exactly,
 * with additions alone. Along two axes at once each has parts of its own, 1 / sqrt(2) of the others, so that
 * the way between them is as fast.
 */
#include "pointer_report.h"

#include "knobs.h"
#include "port_memory.h"
#include "tables.h"
#include "transport.h"

#if HAS_POINTER

enum { PAIRS = 2, OF_PAIR = POINTER_AXES / PAIRS };
enum { MOST_DUE = 127, MOST_PASSED_MS = 100 };
enum { BUTTONS = 0, WAYS = 1 };

_Static_assert(POINTER_BYTES < MEDIA_PACKET, "a report is one packet");

/* Key n is bit (n & 7) of down[n / 8]; of the buttons' byte, bit 0 is nobody's. */
static uint8_t down[2];
static uint8_t buttons_told;

static int8_t due[POINTER_AXES];
static uint32_t rests[POINTER_AXES];             /* parts of a step that is not whole yet            */
static uint32_t parts[PAIRS], parts_aslant[PAIRS]; /* of the next millisecond, along one axis or two */
static uint16_t seen_ms;

static bool out_of_sync; /* the host did not listen since           */
static bool changed;     /* something is to be told of that is down */
static bool only_moves;  /* the last report did                     */

static void drop_due(void)
{
    for (uint8_t axis = 0; axis < POINTER_AXES; axis++) {
        due[axis] = 0;
    }
}

void pointer_start(void)
{
    down[BUTTONS] = 0;
    down[WAYS] = 0;
    buttons_told = 0;
    drop_due();
    changed = false;
}

/* --- what moves ------------------------------------------------------------------------------ */

/* 1 up the axis, -1 down, 0 for neither and both. */
static int8_t way_of(uint8_t axis)
{
    uint8_t two = (uint8_t)(down[WAYS] >> (2 * axis)) & 3;

    return two == 2 ? 1 : two == 1 ? -1 : 0;
}

static void add(uint8_t axis, int8_t step)
{
    int8_t sum = due[axis];

    if (sum != (step < 0 ? -MOST_DUE : MOST_DUE)) {
        due[axis] = (int8_t)(sum + step);
    }
}

static void begin(uint8_t pair)
{
    parts[pair] = pointer_curves[pair].start;
    parts_aslant[pair] = pointer_curves[pair].start_aslant;
}

/* A pair that stood still begins slowly, and a way with a step. */
static void turn(uint8_t axis, int8_t before)
{
    int8_t way = way_of(axis);

    if (way == 0 || way == before) {
        return;
    }
    if (way_of(axis ^ 1) == 0) {
        begin(axis >> 1);
    }
    rests[axis] = 0;
    add(axis, way);
}

static void move_axis(uint8_t axis, int8_t way, uint32_t more, uint32_t unit)
{
    uint32_t rest = rests[axis] + more;

    while (rest >= unit) {
        rest -= unit;
        add(axis, way);
    }
    rests[axis] = rest;
}

static uint32_t grown(uint32_t now, uint32_t grow, uint32_t most)
{
    return most - now < grow ? most : now + grow;
}

static void move_pair(uint8_t pair)
{
    FLASH const struct pointer_curve *curve = &pointer_curves[pair];
    uint8_t first = (uint8_t)(pair * OF_PAIR), second = (uint8_t)(first + 1);
    int8_t one = way_of(first), other = way_of(second);
    uint32_t more = (one & other) != 0 ? parts_aslant[pair] : parts[pair];

    if (one != 0) {
        move_axis(first, one, more, curve->unit);
    }
    if (other != 0) {
        move_axis(second, other, more, curve->unit);
    }
    parts[pair] = grown(parts[pair], curve->grow, curve->most);
    parts_aslant[pair] = grown(parts_aslant[pair], curve->grow_aslant, curve->most_aslant);
}

void pointer_pass(uint16_t now_ms)
{
    uint16_t passed = (uint16_t)(now_ms - seen_ms);

    seen_ms = now_ms;
    if (down[WAYS] == 0) {
        return;
    }
    if (passed > MOST_PASSED_MS) {
        passed = MOST_PASSED_MS;
    }
    for (; passed != 0; passed--) {
#if HAS_KNOBS
        knobs_look();
#endif
        move_pair(0);
        move_pair(1);
    }
}

/* --- keys -------------------------------------------------------------------------------------- */

static uint8_t bit_of(uint8_t number)
{
    return (uint8_t)(1u << (number & 7));
}

static void change(uint8_t number, uint8_t value)
{
    uint8_t axis = (uint8_t)((number & 7) >> 1);
    int8_t before = way_of(axis);
    uint8_t *byte = &down[number >> 3];
    bool is_news = *byte != value;

    *byte = value;
    if (byte == &down[WAYS]) {
        turn(axis, before);
    } else if (is_news) {
        changed = true;
    }
}

void pointer_press(uint8_t number)
{
    change(number, down[number >> 3] | bit_of(number));
}

void pointer_lift(uint8_t number)
{
    change(number, down[number >> 3] & (uint8_t)~bit_of(number));
}

#if HAS_IN_TURN
void pointer_lift_all(void)
{
    if (down[BUTTONS] != 0) {
        changed = true;
    }
    down[BUTTONS] = 0;
    down[WAYS] = 0;
}
#endif

/* --- reports ----------------------------------------------------------------------------------- */

uint8_t pointer_write(uint8_t *out)
{
    out[0] = POINTER_REPORT;
    out[1] = down[BUTTONS] >> 1;
    for (uint8_t axis = 0; axis < POINTER_AXES; axis++) {
        out[2 + axis] = 0;
    }
    return POINTER_BYTES;
}

static bool something_is_due(void)
{
    bool any = false;

    for (uint8_t axis = 0; axis < POINTER_AXES; axis++) {
        any |= due[axis] != 0;
    }
    return any;
}

static bool buttons_are_news(void)
{
    if (out_of_sync) {
        return (down[BUTTONS] | buttons_told) != 0;
    }
    return down[BUTTONS] != buttons_told;
}

static void give(void)
{
    uint8_t report[POINTER_BYTES];

    pointer_write(report);
    for (uint8_t axis = 0; axis < POINTER_AXES; axis++) {
        report[2 + axis] = (uint8_t)due[axis];
    }
    drop_due();
    buttons_told = down[BUTTONS];
    transport_media_give(report, POINTER_BYTES);
}

bool pointer_give(void)
{
    bool is_news;

    if (transport_boot_protocol() || !transport_media_free()) { /* in boot protocol there is no pointer */
        return false;
    }
    is_news = buttons_are_news();
    out_of_sync = false;
    if (is_news) {
        give();
    }
    return is_news;
}

void pointer_move(void)
{
    if (!transport_open() || transport_boot_protocol()) {
        out_of_sync = true;
        changed = false;
        drop_due();
    } else if (something_is_due() && !out_of_sync && !changed && !buttons_are_news() &&
               transport_media_free()) {
        give();
        only_moves = true;
    }
}

#if HAS_MEDIA
void pointer_changed(void)
{
    changed = true;
}
#endif

void pointer_told(void)
{
    changed = false;
    only_moves = false;
}

bool pointer_only_moves(void)
{
    return only_moves && !changed;
}

void pointer_lost(void)
{
    buttons_told = UINT8_MAX; /* as no buttons are */
}

#endif
