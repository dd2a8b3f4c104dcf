#include "typed.h"

enum { MEMORY_MS = 0x4000 }; /* longer than any time of a tap-and-hold key, much shorter than a wrap */

static key_number last_key;
static bool pressed_lately, let_go_lately; /* the stamps below mean something */
static uint16_t pressed_ms;
static uint16_t let_go_ms; /* of the same key */

void typed_start(void)
{
    last_key = NO_KEY;
    pressed_lately = false;
}

void typed_press(key_number key, uint16_t at_ms)
{
    last_key = key;
    pressed_ms = at_ms;
    pressed_lately = true;
    let_go_lately = false;
}

void typed_nothing(key_number key)
{
    if (key == last_key) { /* its release is no longer that of what it typed */
        last_key = NO_KEY;
        let_go_lately = false;
    }
}

void typed_release(key_number key, uint16_t at_ms)
{
    if (key == last_key) {
        let_go_ms = at_ms;
        let_go_lately = true;
    }
}

bool typed_within(uint16_t ms, uint16_t at_ms)
{
    return pressed_lately && (uint16_t)(at_ms - pressed_ms) < ms;
}

bool typed_and_let_go_within(key_number key, uint16_t ms, uint16_t at_ms)
{
    return let_go_lately && key == last_key && (uint16_t)(at_ms - let_go_ms) < ms;
}

void typed_forget(uint16_t at_ms)
{
    if ((uint16_t)(at_ms - pressed_ms) > MEMORY_MS) {
        pressed_lately = false;
    }
    if ((uint16_t)(at_ms - let_go_ms) > MEMORY_MS) {
        let_go_lately = false;
    }
}
