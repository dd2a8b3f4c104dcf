/*
 * Keys that are one action: which of them the oldest press begins, if any, and when that ends.
 *
 * The press of a key of a set waits until no set can come any more that has all the keys pressed since: its
 * time is over, a key is pressed that is in none of them, one of those is let go, or a set is whole and there
 * is no larger one. A set counts on its layer, where no layer above has a cell of one of its keys, or the same
 * set. Its action is that of its first key on the plate, and ends with the first one that is let go.
 */
#ifndef TOGETHER_H
#define TOGETHER_H

#include <stdbool.h>

#include "events.h"
#include "sizes.h"

#if HAS_TOGETHER

/* No press is undecided. */
void together_start(void);

/*
 * Whether it is decided if the oldest event, a press, is one of several keys. Of their events it is then the
 * only one that is left, and they are down.
 */
bool together_decided(const struct event *press);

#if HAS_FIRST_SECOND
/* The same of the press at a later place, of which nothing is decided by that. */
enum beginning { BEGINS_OPEN, BEGINS_ALONE, BEGINS_SET };
enum beginning together_begins(uint8_t place, const struct event *press);

/* It is decided: the oldest event is the press of one key, whatever else is pressed. */
void together_alone(void);
#endif

/* After that: which key it presses, and what the layers give that key, or the set. */
key_number together_key(key_number pressed);
action_number together_action(key_number pressed);

/* Whether a key went down with that press. */
bool together_has(key_number key);

/* It is done. */
void together_done(void);

/* The key that does what a key that is down does along with others, or that key. */
key_number together_doer(key_number key);

/*
 * A key goes up: what its set does is over, if there is one, for all other keys. Returns the key whose action
 * is to be let go, NO_KEY if there is none.
 */
key_number together_leave(key_number key);

/* It has gone up, and the action of `first` is let go. */
void together_left(key_number key, key_number first);

#endif

#endif
