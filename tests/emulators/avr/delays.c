/*
 * The firmware's delay loops, jumped over: `sbiw rN, 1; brne` to itself becomes a write to an address that
 * the chips do not use, and the write does to rN, the flags and the time what the whole loop does. It is
 * most of what a scan takes. A timer of simavr's that is due within a loop is served at its end.
 */
#include "board.h"

enum { SBIW_1 = 0x9701, BRNE_BACK = 0xF7F1, STS = 0x9200 };
enum { PAIRS = 4, FIRST_PAIR = 24, UNUSED = 0xFC };
enum { STS_CYCLES = 2, TURN_CYCLES = 4 };

static uint32_t end; /* of the program; 0: its loops are as they were */

static uint16_t word_at(uint32_t place)
{
    return (uint16_t)(avr->flash[place] | avr->flash[place + 1] << 8);
}

static void put_words(uint32_t place, uint16_t first, uint16_t second)
{
    const uint16_t words[] = {first, second};

    memcpy(&avr->flash[place], words, sizeof words);
}

/* The last branch is not taken, and takes one cycle less. */
static void skip(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t *pair = &chip->data[FIRST_PAIR + 2 * (address - UNUSED)];
    uint32_t count = (uint32_t)(pair[0] | pair[1] << 8);
    uint32_t turns = count != 0 ? count : 0x10000;
    uint32_t cycles = TURN_CYCLES * turns - 1 - STS_CYCLES;

    (void)value, (void)param;
    pair[0] = pair[1] = 0;
    chip->sreg[S_Z] = 1;
    chip->sreg[S_C] = chip->sreg[S_N] = chip->sreg[S_V] = chip->sreg[S_S] = 0;
    chip->cycle += cycles;
    chip->run_cycle_count -= cycles < chip->run_cycle_count ? cycles : chip->run_cycle_count;
}

void delays_open(uint32_t size)
{
    end = size;
    for (uint16_t pair = 0; pair < PAIRS; pair++) {
        wrap(UNUSED + pair, skip, NULL);
    }
    for (uint32_t place = 0; place + 4 <= end; place += 2) {
        uint16_t pair = (word_at(place) - SBIW_1) >> 4;
        if (word_at(place) == SBIW_1 + (pair << 4) && pair < PAIRS && word_at(place + 2) == BRNE_BACK) {
            put_words(place, STS, UNUSED + pair);
        }
    }
}

/* The loops as they were, for a program whose every instruction counts. */
void delays_restore(void)
{
    for (uint32_t place = 0; place + 4 <= end; place += 2) {
        uint16_t pair = word_at(place + 2) - UNUSED;
        if (word_at(place) == STS && pair < PAIRS) {
            put_words(place, SBIW_1 + (pair << 4), BRNE_BACK);
        }
    }
    end = 0;
}
