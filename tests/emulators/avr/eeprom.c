/*
 * That a write of the EEPROM takes its time, which simavr leaves out: 7766 section 5.3 and table 5-3.
 * Until it is over EEPE reads one, nothing else is written and nothing is read.
 */
#include "board.h"

enum { EECR = 0x3F, EEPE = 1 << 1, EEMPE = 1 << 2, WRITE_US = 3400 };

static struct wrapped old_eecr;

static avr_cycle_count_t written(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    chip->data[EECR] &= (uint8_t)~EEPE;
    return 0;
}

static void write_eecr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    bool begins = (value & EEPE) != 0 && (chip->data[address] & EEMPE) != 0;

    (void)param;
    if ((chip->data[address] & EEPE) != 0) {
        return;
    }
    pass_on(&old_eecr, address, value);
    if (begins) {
        chip->data[address] |= EEPE;
        avr_cycle_timer_register_usec(chip, WRITE_US, written, NULL);
    }
}

void eeprom_open(void)
{
    old_eecr = wrap(EECR, write_eecr, NULL);
}
