/*
 * Tells what only the chip itself knows, for the bench firmware: port.h has the words.
 */
#include "port.h"

#if HAS_SELF_REPORT

static FLASH const char chip_text[] = "chip";

void port_register(uint8_t number, struct port_register *found)
{
    (void)number;
    found->name = chip_text;
    found->length = 1;
    found->bytes[0] = 0;
}

uint16_t port_ticks(void)
{
    return 0;
}

uint16_t port_frame(void)
{
    return 0;
}

#endif
