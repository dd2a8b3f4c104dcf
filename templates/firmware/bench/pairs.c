/*
 * Beside what was told, a pulled pin has one set of others that differ, and a time since when. Pins that
 * come to differ while others of the set wait for theirs, or for the host, wait for the next set. So a
 * change may count some ms later than it has to, and a pair costs two bits.
 *
 * A set is bytes, bit n % 8 of byte n / 8 being pin n: a chip of 48 pins would have 64-bit numbers for
 * them, and those need a compiler's library.
 */
#include "pairs.h"

#include "port.h"

enum { COUNTS_AFTER_MS = 5 };
enum { SET_BYTES = (PINS + 7) / 8 };

_Static_assert(__BYTE_ORDER__ == __ORDER_LITTLE_ENDIAN__, "the bytes of a line_set lie the other way");
_Static_assert(PINS < NO_PIN, "a pin's number is a byte");

static uint8_t told[PINS][SET_BYTES];
static uint8_t differ[PINS][SET_BYTES]; /* at each reading since then */
static uint8_t since_ms[PINS];
static uint8_t read_ms[PINS]; /* what came after the last reading is not known yet */

static uint8_t bit_of(uint8_t pin)
{
    return (uint8_t)(1u << pin % 8);
}

static bool is_empty(const uint8_t *set)
{
    uint8_t all = 0;

    for (uint8_t place = 0; place < SET_BYTES; place++) {
        all |= set[place];
    }
    return all == 0;
}

static uint8_t first_of(const uint8_t *set, uint8_t from)
{
    for (uint8_t pin = from; pin < PINS; pin++) {
        if ((set[pin / 8] & bit_of(pin)) != 0) {
            return pin;
        }
    }
    return NO_PIN;
}

void pairs_start(void)
{
    for (uint8_t pulled = 0; pulled < PINS; pulled++) {
        pairs_forget(pulled);
    }
}

void pairs_forget(uint8_t pulled)
{
    for (uint8_t place = 0; place < SET_BYTES; place++) {
        told[pulled][place] = 0;
        differ[pulled][place] = 0;
    }
}

void pairs_restart(void)
{
    for (uint8_t pulled = 0; pulled < PINS; pulled++) {
        for (uint8_t place = 0; place < SET_BYTES; place++) {
            differ[pulled][place] = 0;
        }
    }
}

void pairs_read(uint8_t pulled, line_set low)
{
    uint8_t *now = (uint8_t *)&low;

    read_ms[pulled] = (uint8_t)port_milliseconds();
    now[pulled / 8] &= (uint8_t)~bit_of(pulled);
    for (uint8_t place = 0; place < SET_BYTES; place++) {
        now[place] ^= told[pulled][place];
        differ[pulled][place] &= now[place];
    }
    if (is_empty(differ[pulled])) {
        for (uint8_t place = 0; place < SET_BYTES; place++) {
            differ[pulled][place] = now[place];
        }
        since_ms[pulled] = read_ms[pulled];
    }
}

/* Longer than that by the clock's count, whose first millisecond may have been a short one. */
static bool has_lasted(uint8_t pulled)
{
    return (uint8_t)(read_ms[pulled] - since_ms[pulled]) > COUNTS_AFTER_MS;
}

uint8_t pairs_due(uint8_t pulled)
{
    if (is_empty(differ[pulled]) || !has_lasted(pulled)) {
        return NO_PIN;
    }
    return first_of(differ[pulled], 0);
}

void pairs_told(uint8_t pulled, uint8_t other)
{
    told[pulled][other / 8] ^= bit_of(other);
    differ[pulled][other / 8] &= (uint8_t)~bit_of(other);
}

bool pairs_closed(uint8_t pulled, uint8_t other)
{
    return (told[pulled][other / 8] & bit_of(other)) != 0;
}

uint8_t pairs_first_closed(uint8_t pulled, uint8_t from)
{
    return is_empty(told[pulled]) ? NO_PIN : first_of(told[pulled], from);
}

void pairs_settle(uint8_t pulled)
{
    if (is_empty(differ[pulled]) || !has_lasted(pulled)) {
        return;
    }
    for (uint8_t place = 0; place < SET_BYTES; place++) {
        told[pulled][place] ^= differ[pulled][place];
        differ[pulled][place] = 0;
    }
}
