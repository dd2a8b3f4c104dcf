#include "line.h"

#include "pin_names.h"
#include "serial.h"

enum { LINE_BYTES = 48, ENDING = 2 };

_Static_assert(LINE_BYTES < ENDPOINT_PACKET,
               "a line is one packet, and never a full one, which would ask for an empty one after it");
_Static_assert(sizeof "bench 2 " CHIP_NAME <= LINE_BYTES - ENDING, "the chip's name is too long");
_Static_assert(2 * PIN_NAME_BYTES + sizeof " >  closed" <= LINE_BYTES - ENDING, "so are pins'");

enum { POWERS = 7 };

static FLASH const uint32_t powers[POWERS] = {1000000, 100000, 10000, 1000, 100, 10, 1};

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

static char digit_of(uint8_t value)
{
    return (char)(value < 10 ? '0' + value : 'A' + value - 10);
}

void line_add_hex(uint8_t byte)
{
    add(digit_of(byte >> 4));
    add(digit_of(byte & 0x0F));
}

/* By subtraction, since a division takes a compiler's library. */
void line_add_number(uint32_t number)
{
    bool begun = false;

    for (uint8_t place = 0; place < POWERS; place++) {
        uint8_t digit = 0;
        /*@ loop unroll 10; */ /* for the proof */
        while (number >= powers[place] && digit < 9) {
            number -= powers[place];
            digit++;
        }
        begun = begun || digit != 0 || place + 1 == POWERS;
        if (begun) {
            add(digit_of(digit));
        }
    }
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
