/*
 * The USB device controller of the AVR chips that have one: 7766 sections 21 and 22.
 *
 * Every flag is polled. In UDINT and UEINTX writing 0 clears a flag and writing 1 changes nothing, so
 * a flag is cleared by writing 1 to all others.
 */
#include "usb_block.h"

#include "chip.h"
#include "delay.h"
#include "port.h"
#include "registers.h"

#define ONLY(flag) ((uint8_t)~(1u << (flag)))

#if CLOCK_MHZ == 16
#define PLL CHIP_PLL_16_MHZ
#elif CLOCK_MHZ == 8
#define PLL CHIP_PLL_8_MHZ
#else
#error "the PLL makes 48 MHz for USB from a crystal of 8 or 16 MHz only"
#endif

/* UECFG0X and UECFG1X, 7766 section 22.18.2. */
enum { INTERRUPT_IN = 0xC0 | 1 << EPDIR, CONTROL = 0, ONE_BANK_OF_32 = 0x20 | 1 << ALLOC };

_Static_assert(CONTROL_PACKET == 32 && ENDPOINT_PACKET == 32, "the endpoints' memory is of 32 bytes");

static bool stopped;
static bool bus_sleeps;

/* --- the block ----------------------------------------------------------------------------- */

void usb_block_run(void)
{
#ifdef CHIP_PLLFRQ
    PLLFRQ = CHIP_PLLFRQ;
#endif
    PLLCSR = PLL;
    PLLCSR = PLL | 1 << PLLE;
    while ((PLLCSR & (1 << PLOCK)) == 0) { /* some 100 us */
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
 */
void port_usb_attach(void)
{
    USBCON = 0;
    delay_turns(TURNS_OF_US(4000));
    CHIP_PADS_REGISTER = CHIP_PADS_ON;
    USBCON = 1 << USBE | 1 << FRZCLK | CHIP_USBCON_PADS;
    usb_block_run();
    UDCON = 0; /* full speed, attached */
}

static void open_endpoint(uint8_t number, uint8_t kind)
{
    UENUM = number;
    UERST = (uint8_t)(1u << number);
    UERST = 0;
    UECONX = 1 << STALLRQC | 1 << RSTDT | 1 << EPEN;
    UECFG0X = kind;
    UECFG1X = ONE_BANK_OF_32;
}

/*
 * SUSPI stays set for as long as the bus sleeps: without it the block would not wake the host (7766
 * section 21.13).
 */
static uint8_t sleep_events(void)
{
    if (!bus_sleeps) {
        if ((UDINT & (1 << SUSPI)) == 0) {
            return 0;
        }
        bus_sleeps = true;
        UDINT = ONLY(WAKEUPI) & ONLY(EORSMI) & ONLY(SOFI);
        return PORT_USB_SUSPEND;
    }
    if (!usb_block_woke()) {
        return 0;
    }
    bus_sleeps = false;
    UDINT = ONLY(SUSPI) & ONLY(WAKEUPI) & ONLY(EORSMI) & ONLY(SOFI);
    return PORT_USB_RESUME;
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
        return sleep_events();
    }
    bus_sleeps = false;
    UDINT = 0;
    open_endpoint(0, CONTROL);
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

/* --- endpoints ----------------------------------------------------------------------------- */

static void write_packet(const uint8_t *bytes, uint8_t length)
{
    while (length-- != 0) {
        UEDATX = *bytes++;
    }
}

static void read_packet(uint8_t *bytes, uint8_t length)
{
    while (length-- != 0) {
        *bytes++ = UEDATX;
    }
}

bool port_control_setup(uint8_t packet[8])
{
    UENUM = 0;
    if ((UEINTX & (1 << RXSTPI)) == 0) {
        return false;
    }
    read_packet(packet, 8);
    UEINTX = ONLY(RXSTPI) & ONLY(RXOUTI);
    return true;
}

bool port_control_in_free(void)
{
    UENUM = 0;
    return (UEINTX & (1 << TXINI)) != 0;
}

void port_control_in(const uint8_t *bytes, uint8_t length)
{
    UENUM = 0;
    write_packet(bytes, length);
    UEINTX = ONLY(TXINI);
}

bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    UENUM = 0;
    if ((UEINTX & (1 << RXOUTI)) == 0) {
        return false;
    }
    uint8_t count = UEBCLX; /* at most CONTROL_PACKET: the bank has no more */
    read_packet(bytes, count);
    *length = count;
    UEINTX = ONLY(RXOUTI);
    return true;
}

/* The block ends the STALL itself at the next SETUP. */
void port_control_stall(void)
{
    UENUM = 0;
    UECONX = 1 << STALLRQ | 1 << EPEN;
}

void port_endpoint_open(uint8_t number)
{
    open_endpoint(number, INTERRUPT_IN);
}

bool port_endpoint_free(uint8_t number)
{
    UENUM = number;
    return (UEINTX & (1 << TXINI)) != 0;
}

/*
 * TXINI before the bytes, FIFOCON after them (7766 section 22.14). Here bit 2 is not RXOUTI but KILLBK:
 * written as 1, it throws away the packet that was written last.
 */
void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    UENUM = number;
    UEINTX = ONLY(TXINI) & ONLY(KILLBK);
    write_packet(bytes, length);
    UEINTX = ONLY(FIFOCON) & ONLY(KILLBK);
}

void port_endpoint_stall(uint8_t number, bool stalled)
{
    if (!stalled) {
        open_endpoint(number, INTERRUPT_IN);
        return;
    }
    UENUM = number;
    UECONX = 1 << STALLRQ | 1 << EPEN;
}
