/*
 * The device on its bus. It never wakes the host: nobody types on it.
 */
#include "device.h"

#include "chapter9.h"
#include "control.h"
#include "port.h"
#include "serial.h"
#include "state.h"

void device_start(void)
{
    serial_start();
    port_usb_attach();
}

static void bus_events(void)
{
    uint8_t events = port_usb_events();

    if ((events & PORT_USB_SUSPEND) != 0) {
        device.suspended = true;
    }
    if ((events & PORT_USB_RESUME) != 0) {
        device.suspended = false;
    }
    if ((events & PORT_USB_RESET) != 0) {
        device.suspended = false;
        control_reset();
        chapter9_reset();
    }
}

void device_step(void)
{
    bus_events();
    if (!device.suspended) { /* else the port may have stopped the endpoints' clock */
        control_step();
    }
}

bool device_suspended(void)
{
    return device.suspended;
}
