/*
 * Which row is chosen is asked twice, for what is to be hidden and for the press: nothing that it goes by
 * changes between.
 */
#include "with_modifier.h"

#include "once.h"
#include "pointer.h"
#include "port_memory.h"
#include "report.h"
#include "tables.h"

#if HAS_WITH_MODIFIER

static key_number by_key; /* NO_KEY: nothing is hidden */
static action_number by_action;

void with_modifier_start(void)
{
    by_key = NO_KEY;
}

/* Kinds of modifiers, on whichever side. */
static uint8_t kinds(uint8_t modifiers)
{
    return (uint8_t)((modifiers | modifiers >> 4) & 0x0F);
}

/* The first row whose modifiers are down, one side of each kind: the last asks for none. */
static FLASH const struct with_modifier *chosen(uint16_t place)
{
    FLASH const struct with_modifier *row = with_modifiers + place;
    uint8_t down = report_modifiers_held();

#if HAS_ONCE
    down |= once_modifiers();
#endif
    while (kinds(row->modifiers & down) != kinds(row->modifiers)) {
        row++;
    }
    return row;
}

action_number with_modifier_down(action_number found)
{
    /*@ split found; */
    FLASH const struct action *action = action_list + found;

    return action->kind == ACTION_WITH_MODIFIER ? chosen(action->operand)->does : found;
}

bool with_modifier_hides(key_number key, action_number found)
{
    FLASH const struct action *action = action_list + found;

    if (action->kind != ACTION_WITH_MODIFIER || by_key == key) {
        return false;
    }
    FLASH const struct with_modifier *row = chosen(action->operand);
    if (row->modifiers == 0) {
        return false;
    }
    FLASH const struct action *does = action_list + row->does;
#if HAS_IN_TURN
    if (does->kind == ACTION_IN_TURN) { /* meanwhile all modifiers are up */
        return false;
    }
#endif
    by_key = key;
    by_action = found;
    report_hide(row->modifiers & (uint8_t)~high_byte(does->operand)); /* of a media key or a button 0 */
    return true;
}

static bool types(action_number found)
{
    FLASH const struct action *action = action_list + found;

#if HAS_PRESS
    if (action->kind == ACTION_PRESS) {
        return low_byte(action->operand) != 0;
    }
#endif
#if HAS_MEDIA
    if (action->kind == ACTION_MEDIA) {
        return true;
    }
#endif
#if HAS_POINTER
    if (action->kind == ACTION_POINTER) {
        return pointer_types(low_byte(action->operand));
    }
#endif
#if HAS_IN_TURN
    if (action->kind == ACTION_IN_TURN) {
        return true;
    }
#endif
    return action->kind == ACTION_WITH_MODIFIER;
}

key_number with_modifier_ended(key_number key, action_number found)
{
    return key != by_key && types(found) ? by_key : NO_KEY;
}

action_number with_modifier_done(void)
{
    return by_action;
}

void with_modifier_key_up(key_number key)
{
    if (key == by_key) {
        by_key = NO_KEY;
        report_hide(0);
    }
}

#endif
