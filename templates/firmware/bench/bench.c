#include "bench.h"

#include "commands.h"
#include "device.h"
#include "high.h"
#include "measure.h"
#include "pairs.h"
#include "port.h"
#include "serial.h"
#include "tell.h"

static uint8_t pulled; /* the pin whose turn it is */

void bench_start(void)
{
    port_start();
    pulled = 0;
    pairs_start();
    high_start();
    measure_start();
    commands_start();
    tell_start();
    device_start();
    port_watchdog_start();
}

static void pull(void)
{
    line_set low = 0;
    bool is_low = port_pull(pulled, &low);

    high_look(pulled, !is_low);
    if (is_low) {
        pairs_read(pulled, low);
    } else if (high_rests(pulled)) {
        pairs_forget(pulled);
    }
}

/* No other pin is low meanwhile, and none is ever high but by its pull-up. */
static void pull_next(void)
{
    if (!high_rests(pulled)) {
        pull();
    }
    if (!tell_listens()) {
        pairs_settle(pulled);
    }
    pulled = pulled + 1 < PINS ? (uint8_t)(pulled + 1) : 0;
}

static void serve_host(void)
{
#if HAS_WAY_TO_BOOT_LOADER
    if (serial_wants_loader()) {
        port_boot_loader();
    }
#endif
    commands_step();
    tell_step();
}

void bench_step(void)
{
    port_watchdog_feed();
    device_step();
    if (device_suspended()) {
        pairs_restart();
        measure_restart();
        port_usb_nap();
        return;
    }
    measure_turn();
    pull_next();
    serve_host();
}
