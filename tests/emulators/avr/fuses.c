/*
 * What is set once in the chip, as the program reads it: by LPM within three cycles of a write of SPMCSR with SPMEN
 * and BLBSET (fuses and lock bits) or SIGRD (the signature row); 7766 and 7707, section "Self-Programming".
 * simavr does not know it: the byte lies in flash for as long.
 */
#include "board.h"

enum { SPMCSR = 0x57, SPMEN = 1 << 0, BLBSET = 1 << 3, SIGRD = 1 << 5, WITHIN = 4, ROW = 8 };

static uint8_t fuses[ROW], signatures[ROW];
static struct wrapped old_spmcsr;
static uint16_t where;
static uint8_t there;

static avr_cycle_count_t over(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    chip->flash[where] = there;
    chip->data[SPMCSR] = 0;
    return 0;
}

static void write_spmcsr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    const uint8_t *row = (value & BLBSET) != 0 ? fuses : signatures;

    (void)param;
    if ((value & SPMEN) == 0 || (value & (BLBSET | SIGRD)) == 0) {
        pass_on(&old_spmcsr, address, value);
        return;
    }
    where = (uint16_t)(chip->data[30] | chip->data[31] << 8);
    if (where >= ROW) {
        return;
    }
    there = chip->flash[where];
    chip->flash[where] = row[where];
    avr_cycle_timer_register(chip, WITHIN, over, NULL);
}

/* The bytes by their addresses: lock bits at 1, fuses at 0, 3 and 2; or the signature at 0, 2 and 4. */
void board_fuse(int is_signature, int address, uint8_t value)
{
    (is_signature ? signatures : fuses)[address] = value;
}

void fuses_open(void)
{
    old_spmcsr = wrap(SPMCSR, write_spmcsr, NULL);
}
