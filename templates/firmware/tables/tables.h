/*
 * What the .keys file says, as constants. The tables are generated; this header is not.
 */
#ifndef TABLES_H
#define TABLES_H

#include <stdint.h>

#include "port_memory.h" /* FLASH: where this chip keeps constants */
#include "sizes.h"

/* Kinds of action, and what their operands are; see table_actions.c. */
enum action_kind {
#if HAS_NOTHING
    ACTION_NOTHING = 0,           /* none */
#else
    NO_ACTION = 0,                /* none: see-through's, which no key does */
#endif
#if HAS_PRESS
    ACTION_PRESS = 1,             /* low byte: usage of page 0x07, or 0; high byte: modifier bits */
#endif
#if HAS_HOLD_LAYER
    ACTION_HOLD_LAYER = 2,        /* low byte: layer number */
#endif
#if HAS_LATCH_LAYER
    ACTION_LATCH_LAYER = 3,       /* low byte: layer number */
#endif
#if HAS_START_BOOT_LOADER
    ACTION_START_BOOT_LOADER = 4, /* the keyboard becomes the chip's boot loader */
#endif
#if HAS_MEDIA
    ACTION_MEDIA = 5,             /* low byte: number of a media key; see media_report.h */
#endif
#if HAS_POINTER
    ACTION_POINTER = 15,          /* low byte: number of a pointer's key; see pointer_report.h */
#endif
#if HAS_ONCE_LAYER
    ACTION_ONCE_LAYER = 6,        /* low byte: layer number */
#endif
#if HAS_ONCE_MODIFIERS
    ACTION_ONCE_MODIFIERS = 7,    /* high byte: modifier bits */
#endif
#if HAS_CHANGE_BASE
    ACTION_CHANGE_BASE = 8,       /* low byte: layer number, 0 for the base layer alone; high byte: its number among the bases */
#endif
#if HAS_TAP_HOLD
    ACTION_TAP_HOLD = 9,          /* place in tap_holds */
#endif
#if HAS_IN_TURN
    ACTION_IN_TURN = 11,          /* place in turn_strokes */
#endif
#if HAS_UNLATCH_LAYERS
    ACTION_UNLATCH_LAYERS = 10,   /* none: every layer that presses have left on ends */
#endif
#if HAS_FIRST_SECOND
    ACTION_FIRST_SECOND = 13,     /* place in first_seconds */
#endif
#if HAS_WITH_MODIFIER
    ACTION_WITH_MODIFIER = 12,    /* place in with_modifiers */
#endif
#if HAS_TOGETHER
    ACTION_TOGETHER = 14,         /* place in togethers, or TOGETHERS: of a key that went down with others */
#endif
};

struct action {
    uint8_t kind;
    uint16_t operand;
};

static inline uint8_t low_byte(uint16_t operand)
{
    return (uint8_t)operand;
}

static inline uint8_t high_byte(uint16_t operand)
{
    return (uint8_t)(operand >> 8);
}

/* key_at[drive * SENSE_LINES + sense]: the key's number in plate order, or NO_KEY. */
extern FLASH const key_number key_at[DRIVE_LINES * SENSE_LINES];

/* layer_cells[layer * KEYS + key]: an action's number, or SEE_THROUGH. Layer 0 has none of those. */
extern FLASH const action_number layer_cells[LAYERS * KEYS];

#if HAS_COMBINATION
/* Where the keys sit that start the boot loader together; one more with sense 0 ends the list. */
struct hold_key {
    uint8_t drive;
    line_set sense; /* one bit */
};
extern FLASH const struct hold_key hold_keys[HOLD_KEYS + 1];
#endif

#if HAS_TAP_HOLD
/* Keys with two meanings, and what decides between them before `after_ms` are over. */
enum { BY_PRESS = 1, BY_RELEASE = 2, OTHER_HAND = 4 };

struct tap_hold {
    action_number tap;
    action_number hold;
    uint16_t after_ms;
    uint16_t roll_ms; /* so soon after another key typed it is a tap */
    uint8_t how;
};
extern FLASH const struct tap_hold tap_holds[TAP_HOLDS + 1];
#endif

#if HAS_FIRST_SECOND
/* What presses of a key do that follow each other within `within_ms`; SEE_THROUGH where there is no third. */
enum { MOST_PRESSES = 3 };

struct first_second {
    action_number does[MOST_PRESSES];
    uint16_t within_ms;
};
extern FLASH const struct first_second first_seconds[FIRST_SECONDS];
#endif

#if HAS_WITH_MODIFIER
/*
 * What keys do that go by modifiers, the rows of one after those of another: it does the first for which one
 * side of each kind of its modifiers is down. The last one of a key has none.
 */
struct with_modifier {
    uint8_t modifiers;
    action_number does;
};
extern FLASH const struct with_modifier with_modifiers[WITH_MODIFIER_ROWS];
#endif

#if HAS_TOGETHER
/*
 * Keys that are one action. The first one does it; the others do FIRST_TOGETHER and the set's place, as long
 * as the action lasts, and then all of them do FIRST_TOGETHER + TOGETHERS until they are let go.
 */
enum { TOGETHER_KEYS = 4 };

struct together {
    action_number action;
    uint8_t layer;
    uint8_t within_ms;
    uint8_t size; /* how many keys: avr-gcc 5.4 fails on comparing keys of 16 bits in flash with a constant */
    key_number keys[TOGETHER_KEYS]; /* in plate order; NO_KEY for none */
};
extern FLASH const struct together togethers[TOGETHERS];
#endif

#if HAS_HANDS
/* hand_of[key]: 1 left, 2 right, 0 neither. */
extern FLASH const uint8_t hand_of[KEYS];
#endif

#if HAS_JOINT_LAYERS
/* Layers that are on while others are, each after those of them that it needs. */
struct joint_layer {
    layer_set needs;
    uint8_t layer;
};
extern FLASH const struct joint_layer joint_layers[JOINT_LAYERS + 1];
#endif

#if HAS_LIGHTS
/* What has to be so for a light to be lit. */
struct light {
#if HAS_LOCK_LIGHTS
    uint8_t leds; /* bits of the output report; 0 for a light of layers */
#endif
#if HAS_LAYER_LIGHTS
    layer_set layers; /* 0 for the light of a lock */
#endif
};
extern FLASH const struct light light_list[LIGHTS];
#endif

/* action_list[action]; number 0 is SEE_THROUGH and never looked up. */
extern FLASH const struct action action_list[ACTIONS];

#if HAS_KNOBS
/* knob_states[knob]: how many of the four states of its contacts a step is long, 2, 4 or 8. */
extern FLASH const uint8_t knob_states[KNOBS];
#endif

#if HAS_IN_TURN
/*
 * What keys type in turn, the strokes of one after those of another. Usages that no key has: TURN_WAIT, for
 * so many times TURN_WAIT_MS as `modifiers` says; TURN_TEXT, first of those that Caps Lock must not change.
 * Neither usage nor modifiers: the end of a key's.
 */
enum { TURN_WAIT = 0x01, TURN_TEXT = 0x02, TURN_WAIT_MS = 10 };

struct stroke {
    uint8_t usage;
    uint8_t modifiers;
};
extern FLASH const struct stroke turn_strokes[TURN_STROKES];
#endif

#if HAS_POINTER
/*
 * How fast the pointer and the wheels go, in parts of a step, of which `unit` are one: those that the first
 * millisecond adds, how many more there are in each next one, and the most. Then the same along each of two
 * axes at once.
 */
struct pointer_curve {
    uint32_t unit;
    uint32_t start, grow, most;
    uint32_t start_aslant, grow_aslant, most_aslant;
};
extern FLASH const struct pointer_curve pointer_curves[2];
#endif

#if HAS_SECOND_INTERFACE
/* The report descriptor of the media keys, MEDIA_DESCRIPTOR_BYTES long. */
extern FLASH const uint8_t media_descriptor[];
#endif

#endif
