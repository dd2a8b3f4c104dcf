#include "line.h"

#include "pin_names.h"
#include "serial.h"

enum { LINE_BYTES = 48, ENDING = 2 };

_Static_assert(LINE_BYTES < ENDPOINT_PACKET,
               "a line is one packet, and never a full one, which would ask for an empty one after it");
_Static_assert(sizeof "bench 2 " CHIP_NAME <= LINE_BYTES - ENDING, "the chip's name is too long");
_Static_assert(2 * PIN_NAME_BYTES + sizeof " >  closed" <= LINE_BYTES - ENDING, "so are pins'");

static uint8_t line[LINE_BYTES];
static uint8_t length;

void line_begin(void)
{
    length = 0;
}

static void add(char letter)
{
    if (length < LINE_BYTES) {
        line[length++] = (uint8_t)letter;
    }
}

void line_add(FLASH const char *text)
{
    /*@ loop unroll LINE_BYTES; */ /* for the proof */
    while (*text != 0) {
        add(*text++);
    }
}

void line_add_pin(uint8_t pin)
{
    line_add(pin_names[pin]);
}

bool line_has_room(void)
{
    return length + PIN_NAME_BYTES + ENDING <= LINE_BYTES;
}

void line_give(void)
{
    add('\r');
    add('\n');
    serial_give(line, length);
}
