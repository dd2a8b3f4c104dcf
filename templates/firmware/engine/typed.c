#include "typed.h"

#if HAS_TAP_HOLD

enum { MEMORY_MS = 0x4000 }; /* longer than any time of a tap-and-hold key, much shorter than a wrap */

static key_number last_key;
static action_number last_cell, last_done;
static bool pressed_lately, let_go_lately; /* the stamps below mean something */
static uint16_t pressed_ms;
static uint16_t let_go_ms; /* of the same key */

void typed_start(void)
{
    last_key = NO_KEY;
    pressed_lately = false;
}

void typed_press(key_number key, uint16_t at_ms, action_number cell, action_number done)
{
    last_key = key;
    last_cell = cell;
    last_done = done;
    pressed_ms = at_ms;
    pressed_lately = true;
    let_go_lately = false;
}

void typed_nothing(key_number key)
{
    if (key == last_key) { /* its release is no longer that of what it typed */
        last_cell = SEE_THROUGH;
    }
}

void typed_release(key_number key, uint16_t at_ms)
{
    if (key == last_key) {
        let_go_ms = at_ms;
        let_go_lately = true;
    }
}

bool typed_by_another_within(key_number key, uint16_t ms, uint16_t at_ms)
{
    return pressed_lately && key != last_key && (uint16_t)(at_ms - pressed_ms) < ms;
}

bool typed_and_let_go_within(
    key_number key, action_number cell, action_number tap, uint16_t ms, uint16_t at_ms)
{
    return let_go_lately && key == last_key && cell == last_cell && tap == last_done &&
           (uint16_t)(at_ms - let_go_ms) < ms;
}

/*
 * A release may have been done that is later than the press before which it was: that is not long ago. To a
 * quarter of a second it is enough.
 */
static bool is_long_ago(uint16_t then_ms, uint16_t at_ms)
{
    uint8_t memory = MEMORY_MS >> 8;

    return (uint8_t)((at_ms >> 8) - (then_ms >> 8) - memory) < 2u * memory;
}

void typed_forget(uint16_t at_ms)
{
    if (is_long_ago(pressed_ms, at_ms)) {
        pressed_lately = false;
    }
    if (is_long_ago(let_go_ms, at_ms)) {
        let_go_lately = false;
    }
}

#endif
