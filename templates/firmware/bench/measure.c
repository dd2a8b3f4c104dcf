#include "measure.h"

#include "port.h"

enum { FRAMES = 1024, FRAME_NUMBERS = 2048 };
enum { LOST_TICKS = 3000 / PORT_TICK_US }; /* without a frame: the bus is reset, or sleeps */

static uint16_t ticks, frame, longest; /* as the last turn had them; the longest turn in ticks */
static uint16_t frame_at;              /* when the last frame was seen                         */
static uint32_t passed;                /* ticks since a frame that began just before a turn  */
static uint16_t begun;                 /* frames since then                                   */
static uint32_t whole_passed;
static uint16_t whole_begun; /* of the last whole measurement: 0 for none */
static bool is_first, waits; /* the next turn is the first one; a frame is waited for */

void measure_start(void)
{
    longest = 0;
    whole_begun = 0;
    measure_restart();
}

void measure_restart(void)
{
    is_first = true;
    waits = true;
}

static void begin(void)
{
    passed = 0;
    begun = 0;
    waits = false;
}

static void frame_begins(uint16_t more)
{
    begun = (uint16_t)(begun + more);
    if (waits) {
        begin();
    } else if (begun >= FRAMES) {
        whole_passed = passed;
        whole_begun = begun;
        begin();
    }
}

void measure_turn(void)
{
    uint16_t now = port_ticks(), number = port_frame();
    uint16_t turn = (uint16_t)(now - ticks);
    uint16_t more = (uint16_t)((unsigned)number - frame) % FRAME_NUMBERS;

    ticks = now;
    frame = number;
    if (is_first) {
        is_first = false;
        return;
    }
    longest = turn > longest ? turn : longest;
    passed += turn;
    if (more != 0) {
        frame_begins(more);
        frame_at = now;
    } else if ((uint16_t)(now - frame_at) > LOST_TICKS) {
        waits = true;
    }
}

uint32_t measure_longest_us(void)
{
    return (uint32_t)longest * PORT_TICK_US;
}

bool measure_frames(uint32_t *microseconds, uint16_t *frames)
{
    *microseconds = whole_passed * PORT_TICK_US;
    *frames = whole_begun;
    return whole_begun != 0;
}
