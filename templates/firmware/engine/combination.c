#include "combination.h"

#include "matrix.h"
#include "port.h"
#include "tables.h"

#if HAS_COMBINATION

enum { HOLD_MS = 1000 };

static bool counting;
static uint16_t complete_since; /* the millisecond */
static uint16_t complete_at;    /* the last one    */

void combination_start(void)
{
    counting = false;
}

static bool is_complete(void)
{
    for (FLASH const struct hold_key *key = hold_keys; key->sense != 0; key++) {
        if (!matrix_is_closed(key->drive, key->sense)) {
            return false;
        }
    }
    return true;
}

/* What is open for no longer than the debounce time has only chattered. */
void combination_watch(uint16_t now_ms)
{
    if (!is_complete()) {
        if ((uint16_t)(now_ms - complete_at) > DEBOUNCE_MS) {
            counting = false;
        }
        return;
    }
    if (!counting) {
        counting = true;
        complete_since = now_ms;
    }
    complete_at = now_ms;
    if ((uint16_t)(now_ms - complete_since) >= HOLD_MS) {
        port_boot_loader();
    }
}

#endif
