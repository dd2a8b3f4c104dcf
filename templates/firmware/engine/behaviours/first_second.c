/*
 * All is decided by the times of first readings, so that a slow host makes no difference. The presses that
 * have counted are always those just before the oldest event that is a press.
 */
#include "first_second.h"

#include "doing.h"
#include "knobs.h"
#include "port_memory.h"
#include "tables.h"
#include "together.h"

#if HAS_FIRST_SECOND

static uint8_t counted;               /* presses               */
static action_number counted_for;     /* what the first found  */
static uint8_t lets_go;               /* the place of a release that goes before the press, or 0 */

void first_second_start(void)
{
    counted = 0;
    lets_go = 0;
}

action_number first_second_cell(action_number cell)
{
    return counted != 0 ? counted_for : cell;
}

#if HAS_TOGETHER
bool first_second_goes_on(void)
{
    return counted != 0;
}
#endif

uint8_t first_second_lets_go(void)
{
    return lets_go;
}

/* From what came after the press, oldest first: `cell`, `means`, or SEE_THROUGH. */
static action_number later(
    action_number cell, action_number means, uint16_t within_ms, const struct event *press)
{
    const struct event *event;

    for (uint8_t place = 1; (event = events_at(place)) != 0; place++) {
#if HAS_KNOBS
        knobs_look();
#endif
        if ((moment)(event->at_ms - press->at_ms) >= within_ms) {
            return means;
        }
        if (event->down && event->key != press->key) {
            return means;
        }
        if (event->down) {
#if HAS_TOGETHER
            enum beginning begins = together_begins(place, event);
            return begins == BEGINS_OPEN ? SEE_THROUGH : begins == BEGINS_SET ? means : cell;
#else
            return cell;
#endif
        }
        if (event->key != press->key && doing_types_only(event->key)) {
            lets_go = place;
            return SEE_THROUGH;
        }
    }
    return (moment)(events_horizon() - press->at_ms) >= within_ms ? means : SEE_THROUGH;
}

action_number first_second_down(action_number cell, uint16_t place, const struct event *press)
{
    FLASH const struct first_second *key = first_seconds + place;
    action_number means = key->does[counted];

    lets_go = 0;
    if (counted == MOST_PRESSES - 1 || key->does[counted + 1] == SEE_THROUGH) {
        return means;
    }
    return later(cell, means, key->within_ms, press);
}

void first_second_pressed(action_number cell, action_number found)
{
    if (found == cell && action_list[cell].kind == ACTION_FIRST_SECOND && counted < MOST_PRESSES - 1) {
        counted++;
        counted_for = cell;
    } else {
        counted = 0;
    }
}

#endif
