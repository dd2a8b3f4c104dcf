/*
 * What the chip needs before anything else, whatever the boot ROM left behind.
 */
#include "clocks.h"
#include "double_reset.h"
#include "pins.h"
#include "port.h"
#include "registers.h"
#include "tick.h"

/*
 * The watchdog comes first, since a crystal that fails to start once would else be waited for until
 * somebody pulls the plug. USB stays in reset until port_usb_attach(): the host sees that the boot
 * loader's device has gone.
 */
void port_start(void)
{
    tick_start();
    port_watchdog_start();
    blocks_reset(RESET_USBCTRL | RESET_TIMER | RESET_IO_BANK0 | RESET_PADS_BANK0);
    clocks_start();
    blocks_release(RESET_TIMER | RESET_IO_BANK0 | RESET_PADS_BANK0);
    pins_start();
#if HAS_DOUBLE_RESET
    double_reset_start();
#endif
}
