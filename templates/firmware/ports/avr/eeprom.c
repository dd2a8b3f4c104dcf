/*
 * Bytes in the EEPROM: 7766 section 5.3. A cell bears 100,000 changes (the datasheets' features page), and
 * a change takes 3.4 ms (7766 table 5-3), during which the program runs on.
 *
 * The first two cells are left alone: where power fails while the address registers are not what they seem,
 * it is address 0 that is written (from memory, no source at hand).
 */
#include "port.h"
#include "registers.h"

#if HAS_REMEMBERED_BASE

enum { FIRST_CELL = 2 };

static bool is_writing(void)
{
    return (EECR & (1 << EEPE)) != 0;
}

uint8_t port_kept(uint8_t place)
{
    while (is_writing()) {
    }
    EEARH = 0;
    EEARL = (uint8_t)(FIRST_CELL + place);
    EECR = 1 << EERE;
    return EEDR;
}

/* EEPE within four cycles after EEMPE, else nothing is written; no interrupt comes between. */
bool port_keep(uint8_t place, uint8_t value)
{
    if (is_writing()) {
        return false;
    }
    if (port_kept(place) != value) {
        EEDR = value;
        __asm__ volatile("sbi %0, %1\n\tsbi %0, %2"
                         :
                         : "I"(IN_OUT(EECR_ADDRESS)), "I"(EEMPE), "I"(EEPE));
    }
    return true;
}

#endif
