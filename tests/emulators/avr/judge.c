/*
 * Mistakes that simavr forgives and a chip does not. The judges watch what the program writes where and
 * say what is wrong with it, in words; a finding fails whatever test runs the board.
 *
 * They are written from the datasheets' rules (Atmel 7766 unless another is named), not from our port:
 * judge_endpoints.c for the USB block's endpoints, judge_block.c for its clock, pads and address,
 * judge_chip.c for watchdog and sleep, judge_clock.c for the oscillators. A reset of the chip makes them forget what they saw.
 */
#include "judge.h"

#include <stdarg.h>
#include <stdio.h>

enum { MOST = 8, LETTERS = 160 };

static char findings[MOST][LETTERS];
static int found;

bool judge_is_away; /* the harness itself writes registers */

/* Each thing is said once, with the place where it was first seen. */
void judge_finds(const char *format, ...)
{
    char text[LETTERS];
    va_list values;

    va_start(values, format);
    vsnprintf(text, sizeof text, format, values);
    va_end(values);
    for (int number = 0; number < found; number++) {
        if (strncmp(findings[number], text, strlen(text)) == 0) {
            return;
        }
    }
    if (found < MOST) {
        size_t length = strlen(text);
        memcpy(findings[found], text, length);
        snprintf(&findings[found++][length], LETTERS - length, ", at %#x", (unsigned)avr->pc);
    }
}

int board_findings(void)
{
    return found;
}

const char *board_finding(int number)
{
    return findings[number];
}

static void start_anew(avr_io_t *io)
{
    (void)io;
    judge_endpoints_start();
    judge_block_start();
    judge_chip_start();
    judge_clock_start();
}

void judge_open(void)
{
    static avr_io_t watching = {.kind = "judge", .reset = start_anew};

    judge_endpoints_open();
    judge_block_open();
    judge_chip_open();
    judge_clock_open();
    start_anew(&watching);
    avr_register_io(avr, &watching);
}
