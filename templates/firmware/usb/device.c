/*
 * The device on its bus: reset, suspend, resume, and waking the host.
 */
#include "chapter9.h"
#include "control.h"
#include "hid.h"
#include "media.h"
#include "port.h"
#include "state.h"
#include "usb.h"

/*
 * A device may drive the bus once it has been idle for 5 ms (USB 2.0 section 7.1.7.7). A host that
 * has not answered long after that will not; then the bus counts as suspended again.
 */
enum { WAKE_AFTER_MS = 5, WAKE_GIVE_UP_MS = 100 };

enum waking { NOT_WAKING, WAKE_WANTED, WAKE_SENT };

static uint8_t waking;
static uint8_t since_ms; /* of the suspend, or, once a wake-up is sent, of that */

void usb_start(void)
{
    hid_start();
#if HAS_SECOND_INTERFACE
    media_start();
#endif
    port_usb_attach();
}

static void bus_reset(void)
{
    device.suspended = false;
    waking = NOT_WAKING;
    control_reset();
    chapter9_reset();
    hid_reset();
}

static void bus_events(void)
{
    uint8_t events = port_usb_events();

    if ((events & PORT_USB_SUSPEND) != 0) {
        device.suspended = true;
        waking = NOT_WAKING;
        since_ms = (uint8_t)port_milliseconds();
    }
    if ((events & PORT_USB_RESUME) != 0) {
        device.suspended = false;
        waking = NOT_WAKING;
    }
    if ((events & PORT_USB_RESET) != 0) {
        bus_reset();
    }
}

static void waking_step(void)
{
    uint8_t now = (uint8_t)port_milliseconds();
    uint8_t passed = (uint8_t)(now - since_ms);

    if (waking == WAKE_WANTED && passed > WAKE_AFTER_MS) {
        waking = WAKE_SENT;
        since_ms = now;
        port_usb_wake_host();
    } else if (waking == WAKE_SENT && passed > WAKE_GIVE_UP_MS) {
        waking = NOT_WAKING;
    }
}

void usb_step(void)
{
    bus_events();
    if (!device.suspended) { /* else the port may have stopped the endpoints' clock */
        control_step();
        hid_step();
    }
    if (waking != NOT_WAKING) {
        waking_step();
    }
}

bool usb_suspended(void)
{
    return device.suspended && waking == NOT_WAKING;
}

void usb_wake_host(void)
{
    if (device.suspended && waking == NOT_WAKING && device.may_wake) {
        waking = WAKE_WANTED;
    }
}
