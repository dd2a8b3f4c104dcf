/*
 * Which key typed last, and when: what a tap-and-hold key asks of the past.
 */
#ifndef TYPED_H
#define TYPED_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* Nothing was typed. */
void typed_start(void);

/* A press that sends a usage; one that does not; the release of any key. */
void typed_press(key_number key, uint16_t at_ms);
void typed_nothing(key_number key);
void typed_release(key_number key, uint16_t at_ms);

/* Whether something was typed within so many ms before `at_ms`. */
bool typed_within(uint16_t ms, uint16_t at_ms);

/* Whether `key` was what typed last, and was let go within so many ms before `at_ms`. */
bool typed_and_let_go_within(key_number key, uint16_t ms, uint16_t at_ms);

/* Forget what lies far back, since the stamps wrap. At least every half a minute. */
void typed_forget(uint16_t at_ms);

#endif
