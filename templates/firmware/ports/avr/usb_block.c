/*
 * The USB device controller of the AVR chips that have one, and its bus: 7766 sections 21 and 22.
 *
 * Every flag is polled. In UDINT writing 0 clears a flag and writing 1 changes nothing, so a flag is
 * cleared by writing 1 to all others.
 */
#include "usb_block.h"

#include "chip.h"
#include "delay.h"
#include "port.h"
#include "registers.h"
#include "usb_packets.h"

#define ONLY(flag) ((uint8_t)~(1u << (flag)))

#if CLOCK_MHZ == 16
#define PLL CHIP_PLL_16_MHZ
#elif CLOCK_MHZ == 8
#define PLL CHIP_PLL_8_MHZ
#else
#error "the PLL makes 48 MHz for USB from a crystal of 8 or 16 MHz only"
#endif

enum { WATCH_MS = 4 }; /* a start of frame comes each millisecond, and ours may begin anywhere in it */

static bool stopped;
static bool bus_sleeps;
static bool watching; /* for who woke the block */
static uint8_t watched_since;

/* --- the block ----------------------------------------------------------------------------- */

void usb_block_run(void)
{
    PLLCSR = PLL; /* off first, since a boot loader may have left it on (7766 section 6.11) */
#ifdef CHIP_PLLFRQ
    PLLFRQ = CHIP_PLLFRQ;
#endif
    PLLCSR = PLL | 1 << PLLE;
    while ((PLLCSR & (1 << PLOCK)) == 0) { /* some 100 us; if it fails, the watchdog starts anew */
    }
    USBCON = 1 << USBE | CHIP_USBCON_PADS;
    stopped = false;
}

void usb_block_stop(void)
{
    USBCON = 1 << USBE | 1 << FRZCLK | CHIP_USBCON_PADS;
    PLLCSR = 0;
    stopped = true;
}

/* A start of frame shows a bus that woke before we had cleared WAKEUPI. */
bool usb_block_woke(void)
{
    return (UDINT & (1 << WAKEUPI | 1 << EORSMI | 1 << EORSTI | 1 << SOFI)) != 0;
}

/*
 * The block is reset first, since a boot loader may have left it on; the host notices that the boot
 * loader's device has gone once the line is low for 2.5 us (USB 2.0 section 7.1.7.3), and gets longer.
 * The watchdog runs before the PLL is waited for.
 */
void port_usb_attach(void)
{
    USBCON = 0;
    delay_turns(TURNS_OF_US(4000));
    CHIP_PADS_REGISTER = CHIP_PADS_ON;
    USBCON = 1 << USBE | 1 << FRZCLK | CHIP_USBCON_PADS;
    port_watchdog_start();
    usb_block_run();
    UDCON = 0; /* full speed, attached */
}

/*
 * What wakes the block need not be the host: after a transient the bus is idle again, and SUSPI does not
 * tell so a second time (7707, errata; for the other chips from memory). So WAKEUPI alone changes
 * nothing but that the block runs for a while. The bus is awake once there is a start of frame or the
 * end of a resume; if neither comes, port_usb_nap() stops the block again.
 *
 * WAKEUPI can only be cleared while the block runs (7766 section 22.18.1). It is set again for as long
 * as the bus is busy, as in a reset, whose end a stopped block would miss (from memory).
 */
static void watch_bus(void)
{
    UDINT = ONLY(WAKEUPI);
    watching = true;
    watched_since = (uint8_t)port_milliseconds();
}

/* Nothing has been seen on the bus for longer than a frame takes. */
bool usb_block_may_stop(void)
{
    if (usb_block_woke()) {
        return false;
    }
    if (watching && (uint8_t)((uint8_t)port_milliseconds() - watched_since) >= WATCH_MS) {
        watching = false;
    }
    return !watching;
}

/*
 * SUSPI stays set for as long as the bus sleeps: without it the block would not wake the host (7766
 * section 21.13).
 */
static uint8_t fall_asleep(void)
{
    if ((UDINT & (1 << SUSPI)) == 0) {
        return 0;
    }
    bus_sleeps = true;
    watching = false; /* SUSPI says that the bus has been idle */
    UDINT = ONLY(WAKEUPI) & ONLY(EORSMI) & ONLY(SOFI);
    return PORT_USB_SUSPEND;
}

static uint8_t wake_up(void)
{
    if ((UDINT & (1 << EORSMI | 1 << SOFI)) != 0) {
        bus_sleeps = false;
        UDINT = ONLY(SUSPI) & ONLY(WAKEUPI) & ONLY(EORSMI) & ONLY(SOFI);
        return PORT_USB_RESUME;
    }
    if ((UDINT & (1 << WAKEUPI)) != 0) {
        watch_bus();
    }
    return 0;
}

uint8_t port_usb_events(void)
{
    if (stopped) {
        if (!usb_block_woke()) {
            return 0;
        }
        usb_block_run();
    }
    if ((UDINT & (1 << EORSTI)) == 0) {
        return bus_sleeps ? wake_up() : fall_asleep();
    }
    bus_sleeps = false;
    UDINT = 0;
    usb_packets_open_control();
    return PORT_USB_RESET;
}

/* The address first, then its enable bit (7766 section 22.7). */
void port_usb_address(uint8_t address)
{
    UDADDR = address;
    UDADDR = address | 1 << ADDEN;
}

void port_usb_wake_host(void)
{
    if (stopped) {
        usb_block_run();
    }
    UDCON = 1 << RMWKUP; /* the block clears it when it is done */
}
