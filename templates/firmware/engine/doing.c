#include "doing.h"

#include "pointer_report.h"
#include "port_memory.h"
#include "report.h"
#include "tables.h"
#include "together.h"

action_number doing[KEYS];

void doing_start(void)
{
    for (key_number key = 0; key < KEYS; key++) {
        doing[key] = SEE_THROUGH;
    }
}

#if HAS_IN_TURN && HAS_POINTER
/* Each key of the pointer does this from now on, and what it held is up. */
static void spend_pointer(action_number done)
{
    for (key_number key = 0; key < KEYS; key++) {
        FLASH const struct action *action = action_list + doing[key];
        if (action->kind == ACTION_POINTER) {
            doing[key] = done;
        }
    }
    pointer_lift_all();
}
#endif

#if HAS_IN_TURN
void doing_spend(action_number done)
{
#if HAS_POINTER
    spend_pointer(done);
#endif
#if HAS_PRESS
    uint8_t kept = 0;

    for (key_number key = 0; key < KEYS; key++) {
        FLASH const struct action *action = action_list + doing[key];
        if (action->kind != ACTION_PRESS) {
            continue;
        }
        if (low_byte(action->operand) != 0) {
            doing[key] = done;
            report_lift(low_byte(action->operand), high_byte(action->operand));
        } else {
            kept |= high_byte(action->operand);
        }
    }
    report_press(0, kept); /* of a key that is over and of one that is not */
#else
    (void)done;
#endif
}
#endif

#if HAS_TAP_HOLD || HAS_FIRST_SECOND
bool doing_types_only(key_number key)
{
#if HAS_TOGETHER
    key = together_doer(key);
#endif
    action_number done = doing[key];
    /*@ split done; */ /* for the proof: each action by itself */
    FLASH const struct action *action = action_list + done;

    (void)action; /* where no key types anything */
#if HAS_MEDIA
    if (action->kind == ACTION_MEDIA) {
        return true;
    }
#endif
#if HAS_POINTER
    if (action->kind == ACTION_POINTER) {
        return true;
    }
#endif
#if HAS_IN_TURN
    if (action->kind == ACTION_IN_TURN) {
        return true;
    }
#endif
#if HAS_WITH_MODIFIER
    if (action->kind == ACTION_WITH_MODIFIER) {
        return true;
    }
#endif
#if HAS_PRESS
    return action->kind == ACTION_PRESS && action->operand < 0x100;
#else
    return false;
#endif
}
#endif
