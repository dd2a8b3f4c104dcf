/*
 * Packets through the USB block's endpoints: 7766 section 22.
 *
 * Every flag is polled. In UEINTX writing 0 clears a flag and writing 1 changes nothing, so a flag is
 * cleared by writing 1 to all others.
 */
#include "usb_packets.h"

#include "port.h"
#include "registers.h"

#define ONLY(flag) ((uint8_t)~(1u << (flag)))

/* UECFG0X and UECFG1X, 7766 section 22.18.2. */
enum { CONTROL = 0, INTERRUPT_IN = 0xC0 | 1 << EPDIR };
enum { ONE_BANK_OF_16 = 0x10 | 1 << ALLOC, ONE_BANK_OF_64 = 0x30 | 1 << ALLOC };
#if HAS_SERIAL_PORT
enum { FOR_BULK_IN = 0x80 | 1 << EPDIR, FOR_BULK_OUT = 0x80 };
#endif

/* Together at most 160 bytes; the smallest chip's block has 176 (7707 section 21.9, from memory). */
_Static_assert(CONTROL_PACKET == 64 && ENDPOINT_PACKET == 64, "the endpoints' memory is of 64 bytes");
#if HAS_SECOND_INTERFACE || HAS_SERIAL_PORT
_Static_assert(MEDIA_PACKET == 16, "the memory of endpoints 2 and 3 is of 16 bytes");
#endif

static uint8_t with_memory; /* the endpoints below this number have theirs */

static uint8_t kind_of(uint8_t number)
{
    if (number == 0) {
        return CONTROL;
    }
#if HAS_SERIAL_PORT
    if (number != NOTICES_IN) {
        return number == BULK_IN ? FOR_BULK_IN : FOR_BULK_OUT;
    }
#endif
    return INTERRUPT_IN;
}

static uint8_t memory_of(uint8_t number)
{
#if HAS_SECOND_INTERFACE || HAS_SERIAL_PORT
    if (number > 1) {
        return ONE_BANK_OF_16;
    }
#else
    (void)number;
#endif
    return ONE_BANK_OF_64;
}

/* The order is that of 7766 section 22.7; the last wait is none, or the watchdog starts anew. */
static void give_memory(uint8_t number)
{
    UENUM = number;
    UECONX = 1 << EPEN;
    UECFG0X = kind_of(number);
    UECFG1X = memory_of(number);
    while ((UESTA0X & (1 << CFGOK)) == 0) {
    }
}

/*
 * Memory is given out in growing order (7707 section 19.6, 7593 section 22.7), in whatever order endpoints
 * are opened; and once after a bus reset, since what is done to one's moves what the next one holds.
 */
static void open_endpoint(uint8_t number)
{
    while (with_memory <= number) {
        give_memory(with_memory++);
    }
    UENUM = number;
    UERST = (uint8_t)(1u << number);
    UERST = 0;
    UECONX = 1 << STALLRQC | 1 << RSTDT | 1 << EPEN;
}

/* A bus reset has disabled all of them (7766 section 22.5). */
void usb_packets_open_control(void)
{
    with_memory = 0;
    open_endpoint(0);
}

/* A report has 36 bytes, and a press waits for them: four at a time, as no compiler unrolls it for size. */
static const uint8_t *write_fours(const uint8_t *bytes, uint8_t fours)
{
    __asm__ volatile("1: ld r0, %a0+\n\tsts %2, r0\n\t"
                     "ld r0, %a0+\n\tsts %2, r0\n\t"
                     "ld r0, %a0+\n\tsts %2, r0\n\t"
                     "ld r0, %a0+\n\tsts %2, r0\n\t"
                     "dec %1\n\tbrne 1b"
                     : "+e"(bytes), "+r"(fours)
                     : "n"(UEDATX_ADDRESS)
                     : "r0", "memory");
    return bytes;
}

static void write_packet(const uint8_t *bytes, uint8_t length)
{
    if (length >= 4) {
        bytes = write_fours(bytes, length >> 2);
    }
    for (length &= 3; length != 0; length--) {
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

/*
 * A SETUP packet is taken whatever the program is just doing, into the one bank that SETUP, IN and OUT
 * share (7766 section 22.12): what is then written spoils it, and what is given or refused answers it.
 * So each of these looks again right before it acts, and leaves the rest to port_control_setup(). A few
 * cycles between look and act remain, as they must where flags are polled.
 */
static bool setup_came(void)
{
    return (UEINTX & (1 << RXSTPI)) != 0;
}

bool port_control_in_free(void)
{
    UENUM = 0;
    return (UEINTX & (1 << TXINI)) != 0;
}

void port_control_in(const uint8_t *bytes, uint8_t length)
{
    UENUM = 0;
    if (setup_came()) {
        return;
    }
    write_packet(bytes, length);
    if (!setup_came()) {
        UEINTX = ONLY(TXINI);
    }
}

bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    UENUM = 0;
    if ((UEINTX & (1 << RXOUTI | 1 << RXSTPI)) != 1 << RXOUTI) {
        return false;
    }
    *length = UEBCLX; /* not before the packet is there; at most CONTROL_PACKET, as the bank has */
    read_packet(bytes, *length);
    if (setup_came()) {
        return false;
    }
    UEINTX = ONLY(RXOUTI);
    return true;
}

/* The block ends the STALL itself at the next SETUP. */
void port_control_stall(void)
{
    UENUM = 0;
    if (!setup_came()) {
        UECONX = 1 << STALLRQ | 1 << EPEN;
    }
}

void port_endpoint_open(uint8_t number)
{
    open_endpoint(number);
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

#if HAS_SERIAL_PORT
/* RXOUTI before the bytes, FIFOCON after them (7766 section 22.13). */
bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length)
{
    UENUM = number;
    if ((UEINTX & (1 << RXOUTI)) == 0) {
        return false;
    }
    UEINTX = ONLY(RXOUTI);
    *length = UEBCLX; /* at most MEDIA_PACKET: the bank has no more */
    read_packet(bytes, *length);
    UEINTX = ONLY(FIFOCON);
    return true;
}
#endif

void port_endpoint_stall(uint8_t number, bool stalled)
{
    open_endpoint(number);
    if (stalled) {
        UECONX = 1 << STALLRQ | 1 << EPEN;
    }
}
