/*
 * ACTION_IN_TURN: one stroke after the other; see turn.h. Its release does nothing.
 *
 * operand: the place of the first one in turn_strokes.
 */
#ifndef BEHAVIOUR_IN_TURN_H
#define BEHAVIOUR_IN_TURN_H

#include <stdint.h>

#include "doing.h"
#include "report.h"
#include "sizes.h"
#include "turn.h"

#if HAS_IN_TURN

static inline void in_turn_down(key_number key, action_number done, uint16_t first)
{
    report_turn(true);
    doing_spend(done);
    turn_begin(key, done, first);
}

#endif

#endif
