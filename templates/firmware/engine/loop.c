#include "loop.h"

#include "keyboard.h"
#include "lights.h"
#include "matrix.h"
#include "port.h"
#include "usb.h"

void loop_start(void)
{
    port_start();
    keyboard_start();
    usb_start();
    port_watchdog_start();
}

/*
 * A computer that sleeps is woken by a key that is still down after the nap that follows its press: what
 * reads like a press for longer than matrix_sweep() looks, as a discharge may, is gone by then.
 */
static bool press_before_nap;

static void sleep_on(bool pressed)
{
    if (press_before_nap && matrix_any_closed()) {
        usb_wake_host();
    } else {
        port_usb_nap();
    }
    press_before_nap = pressed;
}

void loop_step(void)
{
    port_watchdog_feed();
    bool pressed = keyboard_step();
    usb_step();
#if HAS_LIGHTS
    lights_step();
#endif
    if (usb_suspended()) {
        sleep_on(pressed);
    } else {
        press_before_nap = false;
    }
}
