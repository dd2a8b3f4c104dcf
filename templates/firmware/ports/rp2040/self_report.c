/*
 * Reads which chip it is and why it started: SYSINFO's CHIP_ID, CHIP_RESET and the watchdog's REASON (datasheet
 * sections 2.20.2, 2.12.8 and 4.7.6); and the number of the last frame.
 */
#include "port.h"

#if HAS_SELF_REPORT

#include "registers.h"

static const char *const names[PORT_REGISTERS] = {"chip", "reset", "watchdog"};

static uint32_t value_of(uint8_t number)
{
    return number == 0 ? CHIP_ID : number == 1 ? CHIP_RESET : WATCHDOG_REASON;
}

void port_register(uint8_t number, struct port_register *found)
{
    uint32_t value = value_of(number);

    found->name = names[number];
    found->length = sizeof value;
    for (uint8_t place = sizeof value; place != 0; place--) {
        found->bytes[place - 1] = (uint8_t)value;
        value >>= 8;
    }
}

uint16_t port_frame(void)
{
    return (uint16_t)(USB_SOF_RD & USB_SOF_COUNT);
}

#endif
