#include "loop.h"

#include "keyboard.h"
#include "port.h"
#include "usb.h"

void loop_start(void)
{
    port_start();
    keyboard_start();
    usb_start();
    port_watchdog_start();
}

void loop_step(void)
{
    port_watchdog_feed();
    bool pressed = keyboard_step();
    usb_step();
    if (usb_suspended()) {
        if (pressed) {
            usb_wake_host();
        } else {
            port_usb_nap();
        }
    }
}
