/*
 * Into the boot ROM's USB boot loader: datasheet section 2.8.3. The ROM's functions are found by a
 * code of two letters; `UB` restarts the chip as a drive that takes firmware.
 */
#include "port.h"
#include "registers.h"

#if HAS_WAY_TO_BOOT_LOADER

/* Addresses from link.ld: of the function table's address, and of the function that searches it. */
extern const uint16_t rom_function_table, rom_table_lookup;

typedef void *(*lookup_function)(const uint16_t *table, uint32_t code);
typedef void (*usb_boot_function)(uint32_t activity_pins, uint32_t interfaces_off);

#define CODE(first, second) ((uint32_t)(first) | (uint32_t)(second) << 8)

void port_boot_loader(void)
{
    lookup_function lookup = (lookup_function)(uintptr_t)rom_table_lookup;
    const uint16_t *table = (const uint16_t *)(uintptr_t)rom_function_table;
    usb_boot_function usb_boot = (usb_boot_function)(uintptr_t)lookup(table, CODE('U', 'B'));

    CLEAR(WATCHDOG_CTRL) = WATCHDOG_ENABLE;
    usb_boot(0, 0);
}

#endif
