/*
 * A keyboard types on where nobody listens to its media keys, as in a set-up screen: then what was not
 * heard is made one report of, as soon as somebody does.
 */
#include "media_report.h"

#include "pointer_report.h"
#include "sizes.h"
#include "transport.h"

#if HAS_MEDIA

enum { KINDS = SYSTEM_REPORT };
enum { SYSTEM_AT = 1 + CONSUMER_BYTES, ALL_BYTES = SYSTEM_AT + 1 + SYSTEM_BYTES };

_Static_assert(CONSUMER_BYTES < MEDIA_PACKET && SYSTEM_BYTES < MEDIA_PACKET, "a report is one packet");
_Static_assert(ALL_BYTES <= 32, "the number of a key is one byte");

static uint8_t reports[ALL_BYTES];

/* Sets of kinds, each having its report's number as its bit. */
static uint8_t stale;     /* something has changed since the last report */
static uint8_t told_down; /* the last report had something down          */

static bool out_of_sync; /* the host did not listen since */

static uint8_t *report_of(uint8_t kind)
{
    return kind == CONSUMER_REPORT ? reports : &reports[SYSTEM_AT];
}

static uint8_t length_of(uint8_t kind)
{
    return kind == CONSUMER_REPORT ? 1 + CONSUMER_BYTES : 1 + SYSTEM_BYTES;
}

void media_report_start(void)
{
    for (uint8_t place = 0; place < ALL_BYTES; place++) {
        reports[place] = 0;
    }
    reports[0] = CONSUMER_REPORT;
    reports[SYSTEM_AT] = SYSTEM_REPORT;
    stale = 0;
    told_down = 0;
    out_of_sync = true;
}

static uint8_t kind_of(const uint8_t *byte)
{
    return byte < &reports[SYSTEM_AT] ? CONSUMER_REPORT : SYSTEM_REPORT;
}

static void change(uint8_t *byte, uint8_t value)
{
    if (*byte != value) {
        *byte = value;
        stale |= kind_of(byte);
#if HAS_POINTER
        pointer_changed();
#endif
    }
}

static uint8_t bit_of(uint8_t number)
{
    return (uint8_t)(1u << (number & 7));
}

void media_report_press(uint8_t number)
{
    uint8_t *byte = &reports[number >> 3];

    change(byte, *byte | bit_of(number));
}

void media_report_lift(uint8_t number)
{
    uint8_t *byte = &reports[number >> 3];

    if (number != 0) {
        change(byte, *byte & (uint8_t)~bit_of(number));
    }
}

static bool something_is_down(uint8_t kind)
{
    const uint8_t *report = report_of(kind);
    uint8_t any = 0;

    for (uint8_t place = 1; place < length_of(kind); place++) {
        any |= report[place];
    }
    return any != 0;
}

uint8_t media_report_write(uint8_t kind, uint8_t *out)
{
    if (kind == 0 || kind > KINDS || length_of(kind) == 1) {
        return 0;
    }
    /*@ split kind; */ /* for the proof: each by itself */
    for (uint8_t place = 0; place < length_of(kind); place++) {
        out[place] = report_of(kind)[place];
    }
    return length_of(kind);
}

/* The host hears of all that is not plainly nothing. */
static void resync(void)
{
    out_of_sync = false;
    stale = told_down;
    for (uint8_t kind = CONSUMER_REPORT; kind <= KINDS; kind++) {
        if (something_is_down(kind)) {
            stale |= kind;
        }
    }
}

static void give(uint8_t kind)
{
    stale &= (uint8_t)~kind;
    told_down &= (uint8_t)~kind;
    if (something_is_down(kind)) {
        told_down |= kind;
    }
    transport_media_give(report_of(kind), length_of(kind));
}

bool media_report_give(void)
{
    if (transport_boot_protocol()) { /* which has no media keys */
        out_of_sync = true;
        return false;
    }
    if (!transport_media_free()) {
        return false;
    }
    if (out_of_sync) {
        resync();
    }
    for (uint8_t kind = CONSUMER_REPORT; kind <= KINDS; kind++) {
        if ((stale & kind) != 0) {
            give(kind);
            return true;
        }
    }
    return false;
}

void media_report_resync(void)
{
    out_of_sync = true;
}

void media_report_lost(void)
{
    out_of_sync = true;
    told_down = MEDIA_KINDS;
}

#endif
