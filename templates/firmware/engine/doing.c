#include "doing.h"

#include "port_memory.h"
#include "tables.h"

action_number doing[KEYS];

void doing_start(void)
{
    for (key_number key = 0; key < KEYS; key++) {
        doing[key] = SEE_THROUGH;
    }
}

#if HAS_TAP_HOLD
bool doing_types_only(key_number key)
{
    action_number done = doing[key];
    /*@ split done; */ /* for the proof: each action by itself */
    FLASH const struct action *action = action_list + done;

    (void)action; /* where no key types anything */
#if HAS_MEDIA
    if (action->kind == ACTION_MEDIA) {
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
