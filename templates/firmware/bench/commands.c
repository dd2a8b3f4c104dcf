/*
 * A program that looks for modems writes to every port that it finds, so anything may come here.
 */
#include "commands.h"

#include "serial.h"
#include "sizes.h"
#include "tell.h"

enum heard { NOTHING, QUESTION, SOMETHING };

static uint8_t heard; /* of the line so far */

void commands_start(void)
{
    heard = NOTHING;
}

static void line_ends(void)
{
    if (heard == QUESTION) {
        tell_everything();
    } else if (heard == SOMETHING) {
        tell_help();
    }
    heard = NOTHING;
}

static void hear(uint8_t letter)
{
    if (letter == '\n' || letter == '\r') {
        line_ends();
    } else {
        heard = letter == '?' && heard == NOTHING ? QUESTION : SOMETHING;
    }
}

void commands_step(void)
{
    uint8_t bytes[MEDIA_PACKET] = {0};
    uint8_t length = serial_take(bytes);

    for (uint8_t place = 0; place < length; place++) {
        hear(bytes[place]);
    }
}
