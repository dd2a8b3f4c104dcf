/*
 * Random fingers on the host build, for the sanitizers: argument 1 is the seed, argument 2 the
 * number of turns. Status 1, with a line on why, if a key sticks or port.h was misused.
 */
#include <stdio.h>
#include <stdlib.h>

#include "host.h"
#include "keyboard.h"
#include "loop.h"
#include "report.h"
#include "sizes.h"
#if __has_include("media_report.h")
#include "media_report.h"
#endif

static uint32_t seed;

/* xorshift32 (G. Marsaglia, Xorshift RNGs, 2003), so that every computer rolls the same dice. */
static uint32_t dice(uint32_t sides)
{
    seed ^= seed << 13;
    seed ^= seed >> 17;
    seed ^= seed << 5;
    return seed % sides;
}

static void random_turn(void)
{
    uint8_t report[64];

    host_close((uint8_t)dice(DRIVE_LINES), (uint8_t)dice(SENSE_LINES), dice(2) != 0);
    host_advance_ms((uint16_t)dice(9));
    if (dice(200) == 0) {
        host_transport(dice(4) != 0, dice(2) != 0);
        host_suspend(dice(4) == 0);
    }
    loop_step();
    if (dice(3) != 0) {
        (void)host_take_report(report);
        (void)host_take_media(report);
    }
}

static void let_everything_go(void)
{
    uint8_t report[64];

    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        for (uint8_t sense = 0; sense < SENSE_LINES; sense++) {
            host_close(drive, sense, false);
        }
    }
    host_transport(true, false);
    host_suspend(false);
    for (unsigned turn = 0; turn < 2u * KEYS + 40u; turn++) {
        host_advance_ms(40);
        loop_step();
        (void)host_take_report(report);
        (void)host_take_media(report);
    }
}

static bool all_zero(const uint8_t *bytes, unsigned length)
{
    for (unsigned place = 0; place < length; place++) {
        if (bytes[place] != 0) {
            return false;
        }
    }
    return true;
}

static bool all_up(void)
{
    uint8_t report[REPORT_BYTES];

    (void)report_write(false, report);
    bool up = all_zero(report, REPORT_BYTES);
#ifdef MEDIA_REPORT_H
    for (uint8_t kind = CONSUMER_REPORT; kind <= SYSTEM_REPORT; kind++) {
        uint8_t length = media_report_write(kind, report);
        up = up && (length == 0 || all_zero(report + 1, length - 1u));
    }
#endif
    return up;
}

int main(int count, char **words)
{
    unsigned long turns = count > 2 ? strtoul(words[2], NULL, 10) : 0;

    seed = count > 1 ? (uint32_t)strtoul(words[1], NULL, 10) : 1;
    host_reset();
    loop_start();
    host_transport(true, false);
    for (unsigned long turn = 0; turn < turns; turn++) {
        random_turn();
        if (turn % 1000 == 999) {
            let_everything_go();
            if (!all_up()) {
                printf("a key sticks after turn %lu\n", turn);
                return 1;
            }
        }
    }
    printf("%lu turns, %u faults\n", turns, host_faults());
    return host_faults() == 0 ? 0 : 1;
}
