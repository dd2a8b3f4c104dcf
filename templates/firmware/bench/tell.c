#include "tell.h"

#include "facts.h"
#include "high.h"
#include "line.h"
#include "pairs.h"
#include "port_memory.h"
#include "serial.h"
#include "sizes.h"

/* In this order. A host that was told everything hears of changes until the port is closed. */
enum stage { NOBODY_LISTENS, VERSION, PIN_NAMES, FACTS, RISES, CLOSED_NOW, HIGH_NOW, READY, CHANGES };

static uint8_t stage;
static uint8_t place; /* the fact, or the pin whose name, time or pairs, that comes next */
static uint8_t other; /* CLOSED_NOW: the first pin that its pairs are not told with */
static bool helps;
static bool was_open;

static FLASH const char version_text[] = "bench 2 " CHIP_NAME;
static FLASH const char pins_text[] = "pins";
static FLASH const char blank_text[] = " ";
static FLASH const char arrow_text[] = " > ";
static FLASH const char closed_text[] = " closed";
static FLASH const char open_text[] = " open";
static FLASH const char high_text[] = " high";
static FLASH const char ready_text[] = "ready";
static FLASH const char help_text[] = "? for everything";

void tell_start(void)
{
    stage = NOBODY_LISTENS;
    helps = false;
    was_open = false;
}

/* What waits to be told as a change is told along with the rest. */
void tell_everything(void)
{
    for (uint8_t pulled = 0; pulled < PINS; pulled++) {
        pairs_settle(pulled);
    }
    high_ask_again();
    stage = VERSION;
    place = 0;
}

void tell_help(void)
{
    helps = true;
}

bool tell_listens(void)
{
    return stage != NOBODY_LISTENS;
}

/* --- lines --------------------------------------------------------------------------------- */

static void tell_text(FLASH const char *text)
{
    line_begin();
    line_add(text);
    line_give();
}

static void tell_pins(void)
{
    line_begin();
    line_add(pins_text);
    while (place < PINS && line_has_room()) {
        line_add(blank_text);
        line_add_pin(place++);
    }
    line_give();
}

static void tell_pair(uint8_t second, bool closed)
{
    line_begin();
    line_add_pin(place);
    line_add(arrow_text);
    line_add_pin(second);
    line_add(closed ? closed_text : open_text);
    line_give();
}

static void tell_high(void)
{
    line_begin();
    line_add_pin(place);
    line_add(high_text);
    line_give();
    high_told(place);
}

/* --- stages -------------------------------------------------------------------------------- */

static void facts_step(void)
{
    if (facts_tell(place)) {
        place++;
    } else {
        stage = RISES;
        place = 0;
    }
}

static void rises_step(void)
{
    facts_tell_rise(place);
    if (place + 1 < PINS) {
        place++;
    } else {
        stage = CLOSED_NOW;
        place = 0;
        other = 0;
    }
}

/* A pin without pairs costs a turn, so that no turn looks through them all. */
static void closed_step(void)
{
    uint8_t second = pairs_first_closed(place, other);

    if (second != NO_PIN) {
        tell_pair(second, true);
        other = (uint8_t)(second + 1);
        return;
    }
    other = 0;
    if (place + 1 < PINS) {
        place++;
    } else {
        stage = HIGH_NOW;
        place = 0;
    }
}

/* The stages before it took more turns than there are pins, so each that rested was looked at again. */
static void high_step(void)
{
    if (high_rests(place)) {
        tell_high();
    }
    if (place + 1 < PINS) {
        place++;
    } else {
        stage = READY;
    }
}

static void changes_step(void)
{
    uint8_t second = pairs_due(place);

    if (high_due(place)) {
        tell_high();
        return;
    }
    if (second == NO_PIN) {
        place = place + 1 < PINS ? (uint8_t)(place + 1) : 0;
        return;
    }
    tell_pair(second, !pairs_closed(place, second));
    pairs_told(place, second);
}

static void stage_step(void)
{
    switch (stage) {
    case VERSION:
        tell_text(version_text);
        stage = PIN_NAMES;
        break;
    case PIN_NAMES:
        tell_pins();
        if (place == PINS) {
            stage = FACTS;
            place = 0;
        }
        break;
    case FACTS:
        facts_step();
        break;
    case RISES:
        rises_step();
        break;
    case CLOSED_NOW:
        closed_step();
        break;
    case HIGH_NOW:
        high_step();
        break;
    case READY:
        tell_text(ready_text);
        stage = CHANGES;
        place = 0;
        break;
    case CHANGES:
        changes_step();
        break;
    default:
        break;
    }
}

/* A port that is closed needs no more lines; one that is opened needs them all. */
static void follow_port(void)
{
    bool is_open = serial_is_open();

    if (was_open && !is_open) {
        tell_start();
    }
    was_open = is_open;
    if (serial_begins()) {
        tell_everything();
    }
}

void tell_step(void)
{
    follow_port();
    if (!serial_free()) {
        return;
    }
    if (helps) {
        helps = false;
        tell_text(help_text);
    } else {
        stage_step();
    }
}
