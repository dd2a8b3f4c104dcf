/*
 * What each key that is down does: the action that its press found.
 */
#ifndef DOING_H
#define DOING_H

#include <stdbool.h>

#include "down.h"
#include "sizes.h"

/* No key is down. */
void doing_start(void);

#if HAS_IN_TURN
/* Each key that holds a usage does this from now on, and what it held is up. */
void doing_spend(action_number done);
#endif

#if HAS_TAP_HOLD || HAS_FIRST_SECOND
/*
 * Whether a key that is down types, and nothing else: a key without modifiers, or a media key. Whatever
 * else is pressed means the same once it is let go.
 */
bool doing_types_only(key_number key);
#endif

#endif
