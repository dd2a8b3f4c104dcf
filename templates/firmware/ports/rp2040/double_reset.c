/*
 * RAM keeps its content over a reset by the RUN pin, so a mark in it that is still there at start-up
 * says that the last start was a moment ago. At power-on the words hold chance, and not these two; but
 * RAM outlives a supply that fails for a moment, as a plug with bad contact makes it. So the second
 * press must be one: CHIP_RESET tells the pin from power and brown-out, WATCHDOG_REASON the watchdog,
 * which leaves CHIP_RESET as it was (datasheet sections 2.12.8 and 4.7.6).
 */
#include "double_reset.h"

#include <stdbool.h>
#include <stdint.h>

#include "port.h"
#include "registers.h"

#if HAS_DOUBLE_RESET

enum { WINDOW_MS = 500 };

static const uint32_t pressed_once[2] = {0x52C1A94Du, 0x3E7705B8u};

__attribute__((section(".noinit"))) static volatile uint32_t mark[2];

static bool waiting;

static void set_mark(bool set)
{
    mark[0] = set ? pressed_once[0] : 0;
    mark[1] = set ? pressed_once[1] : 0;
    waiting = set;
}

static bool pressed_now(void)
{
    uint32_t cause = CHIP_RESET & (CHIP_RESET_HAD_RUN | CHIP_RESET_HAD_POR);

    return WATCHDOG_REASON == 0 && cause == CHIP_RESET_HAD_RUN;
}

/* Only the watchdog's start is never the first of two. */
void double_reset_start(void)
{
    bool again = mark[0] == pressed_once[0] && mark[1] == pressed_once[1];
    bool second = again && pressed_now();
    set_mark(WATCHDOG_REASON == 0 && !second);
    if (second) {
        port_boot_loader();
    }
}

void double_reset_step(void)
{
    if (waiting && port_milliseconds() >= WINDOW_MS) {
        set_mark(false);
    }
}

#endif
