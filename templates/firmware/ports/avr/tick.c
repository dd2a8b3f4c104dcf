/*
 * Timer 1 runs freely at a 64th of the clock, so no millisecond is lost as long as somebody asks for
 * the time once in 0.2 s.
 */
#include "tick.h"

#include "board.h"
#include "port.h"
#include "registers.h"

enum { COUNTS = CLOCK_MHZ * 1000 / 64 };

_Static_assert(COUNTS * 64 == CLOCK_MHZ * 1000, "the timer cannot count whole milliseconds");

static uint16_t milliseconds;
static uint16_t counted; /* the timer's count at the last whole millisecond */

void tick_start(void)
{
    TCCR1A = 0;
    TCCR1B = (1 << CS11) | (1 << CS10);
}

#if HAS_WAY_TO_BOOT_LOADER
void tick_stop(void)
{
    TCCR1B = 0;
    TCNT1H = 0; /* the high byte first: it is written along with the low one */
    TCNT1L = 0;
}
#endif

static uint16_t timer(void)
{
    uint8_t low = TCNT1L; /* the low byte first: reading it latches the high one */

    return (uint16_t)(low | ((uint16_t)TCNT1H << 8));
}

#if HAS_SELF_REPORT
_Static_assert(64 / CLOCK_MHZ % PORT_TICK_US == 0, "a count is not whole ticks");

uint16_t port_ticks(void)
{
    return (uint16_t)(timer() * (64 / CLOCK_MHZ / PORT_TICK_US));
}
#endif

void tick_slept(uint8_t passed)
{
    counted = timer();
    milliseconds += passed;
}

uint16_t port_milliseconds(void)
{
    /* A slow matrix makes turns of several; the timer is read anew, or this becomes a division. */
    while ((uint16_t)(timer() - counted) >= COUNTS) {
        counted += COUNTS;
        milliseconds++;
    }
    return milliseconds;
}
