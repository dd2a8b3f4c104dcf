#include "high.h"

#include "sizes.h"

/* Looks that found it high, one after another; then it rests, and then the host knows. */
enum { COUNTS_AFTER = 3, KNOWN };

static uint8_t found[PINS];

void high_start(void)
{
    for (uint8_t pin = 0; pin < PINS; pin++) {
        found[pin] = 0;
    }
}

void high_look(uint8_t pin, bool is_high)
{
    found[pin] = is_high ? (uint8_t)(found[pin] + 1) : 0;
}

bool high_rests(uint8_t pin)
{
    return found[pin] >= COUNTS_AFTER;
}

bool high_is_likely(uint8_t pin)
{
    return found[pin] != 0;
}

bool high_due(uint8_t pin)
{
    return found[pin] == COUNTS_AFTER;
}

void high_told(uint8_t pin)
{
    found[pin] = KNOWN;
}

void high_ask_again(void)
{
    for (uint8_t pin = 0; pin < PINS; pin++) {
        if (high_rests(pin)) {
            found[pin] = COUNTS_AFTER - 1;
        }
    }
}
