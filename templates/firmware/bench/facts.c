#include "facts.h"

#include "high.h"
#include "line.h"
#include "measure.h"
#include "port.h"
#include "port_memory.h"

static FLASH const char fact_text[] = "fact ";
static FLASH const char turn_text[] = "turn ";
static FLASH const char clock_text[] = "clock ";
static FLASH const char blank_text[] = " ";
static FLASH const char rises_text[] = "rises ";
static FLASH const char never_text[] = "never";

static void begin(FLASH const char *name)
{
    line_begin();
    line_add(fact_text);
    line_add(name);
}

static void tell_register(const struct port_register *found)
{
    begin(found->name);
    line_add(blank_text);
    for (uint8_t place = 0; place < found->length; place++) {
        line_add_hex(found->bytes[place]);
    }
    line_give();
}

static void tell_turn(void)
{
    begin(turn_text);
    line_add_number(measure_longest_us());
    line_give();
}

static void tell_clock(void)
{
    uint32_t microseconds;
    uint16_t frames;

    if (!measure_frames(&microseconds, &frames)) {
        return;
    }
    begin(clock_text);
    line_add_number(microseconds);
    line_add(blank_text);
    line_add_number(frames);
    line_give();
}

bool facts_tell(uint8_t number)
{
    struct port_register found;

    if (number < PORT_REGISTERS) {
        port_register(number, &found);
        tell_register(&found);
    } else if (number == PORT_REGISTERS) {
        tell_turn();
    } else if (number == PORT_REGISTERS + 1) {
        tell_clock();
    } else {
        return false;
    }
    return true;
}

void facts_tell_rise(uint8_t pin)
{
    uint8_t microseconds = high_is_likely(pin) ? PORT_IS_HIGH : port_rise_us(pin);

    if (microseconds == PORT_IS_HIGH) {
        return;
    }
    line_begin();
    line_add(rises_text);
    line_add_pin(pin);
    line_add(blank_text);
    if (microseconds == PORT_NEVER_RISES) {
        line_add(never_text);
    } else {
        line_add_number(microseconds);
    }
    line_give();
}
