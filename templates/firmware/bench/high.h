/*
 * Pins that something holds high, such as a line on the supply: one that is pulled low all the same would
 * have to carry whatever the supply gives.
 *
 * A pin that COUNTS_AFTER looks in a row have found high is left alone until the host asks for everything;
 * then it is looked at once more, before it is told of again.
 */
#ifndef HIGH_H
#define HIGH_H

#include <stdbool.h>
#include <stdint.h>

void high_start(void);

/* One look at a pin, which found it high or not. */
void high_look(uint8_t pin, bool is_high);

/* It is not to be pulled, nor looked at. */
bool high_rests(uint8_t pin);

/* The last look found it high. */
bool high_is_likely(uint8_t pin);

/* It rests, and the host was not told so; it is told now. */
bool high_due(uint8_t pin);
void high_told(uint8_t pin);

/* Look once more at each that rests. */
void high_ask_again(void);

#endif
