/*
 * What the .keys file says, as constants. The tables are generated; this header is not.
 */
#ifndef TABLES_H
#define TABLES_H

#include <stdint.h>

#include "port_memory.h" /* FLASH: where this chip keeps constants */
#include "sizes.h"

/* Kinds of action; see table_actions.c. */
enum action_kind {
    ACTION_NOTHING = 0,
    ACTION_PRESS = 1,      /* first: usage of page 0x07, or 0; second: modifier bits           */
    ACTION_HOLD_LAYER = 2, /* first: layer number                                              */
    ACTION_LATCH_LAYER = 3, /* first: layer number                                             */
    ACTION_BOOT_LOADER = 4 /* the keyboard becomes the chip's boot loader                      */
};

struct action {
    uint8_t kind;
    uint8_t first;
    uint8_t second;
};

/* key_at[drive * SENSE_LINES + sense]: the key's number in plate order, or NO_KEY. */
extern FLASH const key_number key_at[DRIVE_LINES * SENSE_LINES];

/* layer_cells[layer * KEYS + key]: an action's number, or SEE_THROUGH. Layer 0 has none of those. */
extern FLASH const action_number layer_cells[LAYERS * KEYS];

/* Where the keys sit that start the boot loader together; one more with sense 0 ends the list. */
struct hold_key {
    uint8_t drive;
    line_set sense; /* one bit */
};
extern FLASH const struct hold_key hold_keys[HOLD_KEYS + 1];

/* action_list[action]; number 0 is SEE_THROUGH and never looked up. */
extern FLASH const struct action action_list[ACTIONS];

#endif
