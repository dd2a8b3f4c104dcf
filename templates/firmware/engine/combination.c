#include "combination.h"

#include "matrix.h"
#include "port.h"
#include "tables.h"

enum { HOLD_MS = 1000 };

static uint16_t incomplete_at; /* the millisecond at which a key of them was last up */

void combination_start(void)
{
    incomplete_at = port_milliseconds();
}

static bool is_complete(void)
{
    for (FLASH const struct hold_key *key = hold_keys; key->sense != 0; key++) {
        if (!matrix_is_down(key->drive, key->sense)) {
            return false;
        }
    }
    return true;
}

void combination_watch(void)
{
    uint16_t now = port_milliseconds();

    if (!is_complete()) {
        incomplete_at = now;
    } else if ((uint16_t)(now - incomplete_at) >= HOLD_MS) {
        port_boot_loader();
    }
}
