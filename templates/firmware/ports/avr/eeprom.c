/*
 * Bytes in the EEPROM: 7766 section 5.3. A cell bears 100,000 changes (the datasheets' features page), and
 * a change takes 3.4 ms (7766 table 5-3), during which the program runs on.
 */
#include "port.h"
#include "registers.h"

static void wait_for_the_last_write(void)
{
    while ((EECR & (1 << EEPE)) != 0) {
    }
}

uint8_t port_kept(uint8_t place)
{
    wait_for_the_last_write();
    EEARH = 0;
    EEARL = place;
    EECR = 1 << EERE;
    return EEDR;
}

/* EEPE within four cycles after EEMPE, else nothing is written; no interrupt comes between. */
void port_keep(uint8_t place, uint8_t value)
{
    if (port_kept(place) == value) {
        return;
    }
    EEDR = value;
    __asm__ volatile("sbi %0, %1\n\tsbi %0, %2" : : "I"(IN_OUT(EECR_ADDRESS)), "I"(EEMPE), "I"(EEPE));
}
