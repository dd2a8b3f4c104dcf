/*
 * Which key typed last, when, and by which tap: what a tap-and-hold key asks of the past.
 */
#ifndef TYPED_H
#define TYPED_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_TAP_HOLD

/* Nothing was typed. */
void typed_start(void);

/*
 * A press that types, one that does not, and the release of any key. `cell` is the action that the layers
 * give the key, and `done` the one of its two that was done where it has two meanings.
 */
void typed_press(key_number key, uint16_t at_ms, action_number cell, action_number done);
void typed_nothing(key_number key);
void typed_release(key_number key, uint16_t at_ms);

/* Whether what typed last was another key than `key`, pressed within so many ms before `at_ms`. */
bool typed_by_another_within(key_number key, uint16_t ms, uint16_t at_ms);

/* Whether what typed last was `tap` of that cell of `key`, let go within so many ms before `at_ms`. */
bool typed_and_let_go_within(
    key_number key, action_number cell, action_number tap, uint16_t ms, uint16_t at_ms);

/* Forget what lies far back, since the stamps wrap. At least every half a minute. */
void typed_forget(uint16_t at_ms);

#endif

#endif
