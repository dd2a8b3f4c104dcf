/*
 * What is closed, pin by pin: for each pin that is pulled low, which others then read low.
 *
 * A pair counts as closed, or open, once each reading has said so for COUNTS_AFTER_MS. What the host was
 * told is kept, and nothing else: however long it does not listen, the differences are told afterwards.
 */
#ifndef PAIRS_H
#define PAIRS_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

enum { NO_PIN = 0xFF };

/* All is open, and told so. */
void pairs_start(void);

/* One reading: bit n of `low` is set where pin n is low while `pulled` is. */
void pairs_read(uint8_t pulled, line_set low);

/* The first other that counts as what the host was not told, or NO_PIN; it is told that now. */
uint8_t pairs_due(uint8_t pulled);
void pairs_told(uint8_t pulled, uint8_t other);

/* What the host was told, or would have been; the first such other from `from` on, or NO_PIN. */
bool pairs_closed(uint8_t pulled, uint8_t other);
uint8_t pairs_first_closed(uint8_t pulled, uint8_t from);

/* Nobody listens, or all is about to be told anew: what counts is told by that. */
void pairs_settle(uint8_t pulled);

/* A pin is no longer pulled: nothing is known of it, and the host knows that. */
void pairs_forget(uint8_t pulled);

/* Nothing was read for a while, so that no reading has lasted. */
void pairs_restart(void);

#endif
