/*
 * ACTION_WITH_MODIFIER: what a key does goes by the modifiers that are down. Those that it was chosen by are
 * hidden from the host while the key does that, but for its own: they go up in a report before its press,
 * since the order of what changes in one report is not defined (HID 1.11 appendix C). They come back when the
 * key is let go, or before another key types: then this one is over, and its release does nothing.
 *
 * operand: the place of its first row in with_modifiers.
 */
#ifndef BEHAVIOUR_WITH_MODIFIER_H
#define BEHAVIOUR_WITH_MODIFIER_H

#include <stdbool.h>

#include "sizes.h"

#if HAS_WITH_MODIFIER

/* Nothing is hidden. */
void with_modifier_start(void);

/* What a press of a key with action `found` does: that action itself unless it is one of these. */
action_number with_modifier_down(action_number found);

/*
 * Before that: the key that hides modifiers and has to be over before the press of `key`, NO_KEY if none has.
 * It does `with_modifier_done()` from then on.
 */
key_number with_modifier_ended(key_number key, action_number found);
action_number with_modifier_done(void);

/* After that, and before the press: hide what has to be hidden for it; true if there is something. */
bool with_modifier_hides(key_number key, action_number found);

/* Any key is let go. */
void with_modifier_key_up(key_number key);

#endif

#endif
