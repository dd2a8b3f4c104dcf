/*
 * An event only sets bits, or only clears bits, or clears after it has set; and it is given before the
 * next one is taken. So the host has not heard of what is down as it is if, and only if, a bit of it has
 * changed.
 */
#include "report.h"

#include "knobs.h"
#include "sizes.h"
#include "transport.h"

enum { ERROR_ROLL_OVER = 0x01, BOOT_USAGES = 6 };

static uint8_t modifiers_down;
#if HAS_ONCE
static uint8_t modifiers_once; /* down besides */
#endif

#if HAS_WITH_MODIFIER
static uint8_t modifiers_hidden;
#endif

#if HAS_IN_TURN
static bool in_turn;           /* then only these are down */
static uint8_t modifiers_turn;
static uint8_t usage_turn;
#endif

/* As the host is told: usage u is bit (u & 7) of usages_down[u / 8], and the first ones are listed. */
static uint8_t report[REPORT_BYTES];
static uint8_t *const listed = &report[2];
static uint8_t *const usages_down = &report[BOOT_REPORT_BYTES];
static uint8_t count_down;

/* In boot protocol two states can make the same report, so that the last one is kept. */
static uint8_t boot_told[BOOT_REPORT_BYTES];
static bool told_boot;   /* the protocol of the last report                    */
static bool stale;       /* what is down has changed since                     */
static bool out_of_sync; /* the host did not listen since                      */
static bool told_down;   /* while out_of_sync: the last report had something down */

static uint8_t all_modifiers(void)
{
#if HAS_IN_TURN
    if (in_turn) {
        return modifiers_turn;
    }
#endif
#if HAS_ONCE && HAS_WITH_MODIFIER
    return (modifiers_down | modifiers_once) & (uint8_t)~modifiers_hidden;
#elif HAS_WITH_MODIFIER
    return modifiers_down & (uint8_t)~modifiers_hidden;
#elif HAS_ONCE
    return modifiers_down | modifiers_once;
#else
    return modifiers_down;
#endif
}

static bool something_is_down(void)
{
    return (all_modifiers() | count_down) != 0;
}

void report_start(void)
{
    modifiers_down = 0;
#if HAS_ONCE
    modifiers_once = 0;
#endif
#if HAS_WITH_MODIFIER
    modifiers_hidden = 0;
#endif
#if HAS_IN_TURN
    in_turn = false;
    modifiers_turn = 0;
    usage_turn = 0;
#endif
    for (uint8_t place = 0; place < REPORT_BYTES; place++) {
        report[place] = 0;
    }
    count_down = 0;
    stale = false;
    told_boot = false;
    out_of_sync = true;
    told_down = false;
}

static void change_modifiers(void)
{
    uint8_t all = all_modifiers();

    if (report[0] != all) { /* one that is down by one of the two is not changed by the other */
        report[0] = all;
        stale = true;
    }
}

/* In ascending order. */
static void list_one_more(uint8_t usage)
{
    uint8_t place = count_down;

    while (place != 0 && listed[place - 1] > usage) {
        listed[place] = listed[place - 1];
        place--;
    }
    listed[place] = usage;
}

static uint8_t list_found(void)
{
    uint8_t count = 0;

    for (uint8_t place = 0; place < USAGE_BYTES; place++) {
        uint8_t found = (uint8_t)(place << 3);
        for (uint8_t bits = usages_down[place]; bits != 0; bits >>= 1, found++) {
            if ((bits & 1) != 0 && count < BOOT_USAGES) { /* always so, but a proof has to see it */
                listed[count++] = found;
            }
        }
    }
    return count;
}

static void list_all(void)
{
#if HAS_KNOBS
    knobs_look(); /* this takes long, and may come for many keys at once */
#endif
    bool too_many = count_down > BOOT_USAGES;
    uint8_t count = too_many ? 0 : list_found();

    while (count < BOOT_USAGES) {
        listed[count++] = too_many ? ERROR_ROLL_OVER : 0;
    }
}

/* Put a usage down, or lift it, if it is not so already. A press is in more of a hurry than a release. */
static void change_usage(uint8_t usage, bool down)
{
    uint8_t *byte = &usages_down[usage >> 3];
    uint8_t bit = (uint8_t)(1u << (usage & 7));

    if (((*byte & bit) != 0) == down) {
        return;
    }
    *byte ^= bit;
    stale = true;
    if (down && count_down < BOOT_USAGES) {
        list_one_more(usage);
        count_down++;
    } else {
        count_down = (uint8_t)(down ? count_down + 1 : count_down - 1);
        list_all();
    }
}

void report_press(uint8_t usage, uint8_t modifiers)
{
    modifiers_down |= modifiers;
    change_modifiers();
    if (usage != 0) {
        change_usage(usage, true);
    }
}

void report_lift(uint8_t usage, uint8_t modifiers)
{
    modifiers_down &= (uint8_t)~modifiers;
    change_modifiers();
    change_usage(usage, false); /* 0 is never down */
}

#if HAS_ONCE
void report_once(uint8_t modifiers)
{
    modifiers_once = modifiers;
    change_modifiers();
}
#endif

#if HAS_WITH_MODIFIER
uint8_t report_modifiers_held(void)
{
    return modifiers_down;
}

void report_hide(uint8_t modifiers)
{
    modifiers_hidden = modifiers;
    change_modifiers();
}
#endif

#if HAS_IN_TURN
void report_turn(bool runs)
{
    report_stroke_up();
    in_turn = runs;
    change_modifiers();
}

void report_stroke(uint8_t usage, uint8_t modifiers)
{
    usage_turn = usage;
    modifiers_turn = modifiers;
    change_modifiers();
    if (usage != 0) {
        change_usage(usage, true);
    }
}

void report_stroke_up(void)
{
    modifiers_turn = 0;
    change_modifiers();
    change_usage(usage_turn, false); /* 0 is never down, and what is up stays so */
}
#endif

uint8_t report_write(bool boot, uint8_t *out)
{
    uint8_t length = boot ? BOOT_REPORT_BYTES : REPORT_BYTES;

    for (uint8_t place = 0; place < length; place++) {
        out[place] = report[place];
    }
    return length;
}

/* Bring `boot_told` up to date; true if that changed it. */
static bool boot_report_differs(void)
{
    uint8_t differs = 0;

    for (uint8_t place = 0; place < BOOT_REPORT_BYTES; place++) {
        differs |= report[place] ^ boot_told[place];
        boot_told[place] = report[place];
    }
    return differs != 0;
}

bool report_give(void)
{
    bool boot = transport_boot_protocol();
    bool resyncs = out_of_sync || boot != told_boot;

    if (!stale && !resyncs) {
        return false;
    }
    /* Out of sync, and in another protocol, the host hears of all that is not plainly nothing. */
    bool due = !resyncs || told_down || something_is_down();
    if (boot && !boot_report_differs() && !resyncs) {
        due = false;
    }
    told_boot = boot;
    stale = false;
    out_of_sync = false;
    told_down = false;
    if (!due) {
        return false;
    }
    transport_give(report, boot ? BOOT_REPORT_BYTES : REPORT_BYTES);
    return true;
}

void report_resync(void)
{
    if (!out_of_sync) {
        out_of_sync = true;
        told_down = something_is_down();
    }
}
