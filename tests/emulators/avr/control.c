/*
 * Control endpoint 0 as the datasheet has it (Atmel 7766, section 22.12), in place of simavr's: SETUP,
 * IN and OUT share one bank, and a SETUP packet is always taken, whatever the program is just doing.
 *
 * What the program then writes into the bank spoils the packet, and what it gives or refuses is taken
 * for the answer to it. Both are counted.
 */
#include "board.h"

enum { UEINTX = 0xE8, UENUM = 0xE9, UERST = 0xEA, UECONX = 0xEB, UEDATX = 0xF1, UEBCLX = 0xF2 };
enum { TXINI = 1 << 0, RXOUTI = 1 << 2, RXSTPI = 1 << 3 };
enum { STALLRQ = 1 << 5, EPEN = 1 << 0 };
enum { BANK = 64 };
enum { UDADDR = 0xE3, ADDEN = 1 << 7, SET_ADDRESS = 5, NO_ADDRESS = 0xFF };

static uint8_t bank[BANK];
static uint8_t length;            /* of what the host sent                       */
static uint8_t position;          /* of the program, in the bank                 */
static uint8_t flags, connection; /* UEINTX and UECONX                           */
static int spoiled, misgiven, overread;
static uint8_t host_address; /* which the host speaks to */
static uint8_t set_address = NO_ADDRESS; /* once it has taken the status packet */

static struct wrapped old_ueintx, old_ueconx, old_uedatx, old_uerst;

static struct reading old_read_ueintx, old_read_ueconx, old_read_uedatx, old_read_uebclx;

/* --- the program's side ---------------------------------------------------------------------- */

static bool is_control(void)
{
    return avr->data[UENUM] == 0;
}

static void write_ueintx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if (!is_control()) {
        pass_on(&old_ueintx, address, value);
        return;
    }
    if ((flags & ~value & TXINI) != 0) {
        misgiven += (flags & RXSTPI) != 0;
        length = position;
    }
    if ((flags & ~value) != 0) {
        position = 0;
    }
    flags &= value;
}

static void write_ueconx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if (!is_control()) {
        pass_on(&old_ueconx, address, value);
        return;
    }
    misgiven += (value & STALLRQ) != 0 && (flags & RXSTPI) != 0;
    connection = value & (STALLRQ | EPEN);
}

static void write_uedatx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if (!is_control()) {
        pass_on(&old_uedatx, address, value);
        return;
    }
    spoiled += (flags & RXSTPI) != 0;
    if (position < BANK) {
        bank[position++] = value;
    }
}

static void write_uerst(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if ((value & 1) != 0) {
        flags = TXINI;
        position = 0;
    }
    pass_on(&old_uerst, address, value);
}

uint8_t pass_on_read(const struct reading *to, avr_io_addr_t address)
{
    return to->read != NULL ? to->read(avr, address, to->param) : avr->data[address];
}

static uint8_t read_ueintx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    return is_control() ? flags : pass_on_read(&old_read_ueintx, address);
}

static uint8_t read_ueconx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    return is_control() ? connection : pass_on_read(&old_read_ueconx, address);
}

static uint8_t read_uedatx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    if (!is_control()) {
        return pass_on_read(&old_read_uedatx, address);
    }
    overread += position >= length;
    return position < BANK ? bank[position++] : 0;
}

static uint8_t read_uebclx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    return is_control() ? (uint8_t)(length - position) : pass_on_read(&old_read_uebclx, address);
}

/* --- the host's side ------------------------------------------------------------------------- */

static void fill(const uint8_t *bytes, uint32_t count, uint8_t flag)
{
    memcpy(bank, bytes, count);
    length = (uint8_t)count;
    position = 0;
    flags |= flag;
}

/* 0, or -1 where there is no such endpoint yet. */
int board_usb_setup(const uint8_t *bytes)
{
    if ((connection & EPEN) == 0 || !control_hears()) {
        return -1;
    }
    set_address = bytes[0] == 0 && bytes[1] == SET_ADDRESS ? bytes[2] : NO_ADDRESS;
    judge_setup(bytes);
    connection &= ~STALLRQ;
    flags = TXINI; /* nothing waits any more to be given or to be read */
    idle_forget();
    fill(bytes, 8, RXSTPI);
    return 0;
}

/* Whether the chip has not yet read the last SETUP; until then it answers NAK to everything. */
int board_usb_setup_waits(void)
{
    return (flags & RXSTPI) != 0;
}

/* The address that the host speaks to is the one that the chip answers to: 0, before ADDEN is set. */
bool control_hears(void)
{
    uint8_t address = avr->data[UDADDR];

    return ((address & ADDEN) != 0 ? address & ~ADDEN : 0) == host_address;
}

/* A packet waits for the host. */
bool control_gives(void)
{
    return (connection & EPEN) != 0 && (flags & TXINI) == 0;
}

static void request_done(void)
{
    judge_status_taken();
    if (set_address != NO_ADDRESS) {
        host_address = set_address;
        set_address = NO_ADDRESS;
    }
}

static int refusal(void)
{
    if ((connection & EPEN) == 0 || (flags & RXSTPI) != 0 || !control_hears()) {
        return AVR_IOCTL_USB_NAK;
    }
    return (connection & STALLRQ) != 0 ? AVR_IOCTL_USB_STALL : 0;
}

int control_in(uint8_t *bytes, uint32_t *count)
{
    if (refusal() != 0 || (flags & TXINI) != 0) {
        return refusal() != 0 ? refusal() : AVR_IOCTL_USB_NAK;
    }
    memcpy(bytes, bank, length);
    *count = length;
    flags |= TXINI;
    if (length == 0) {
        request_done();
    }
    idle_forget();
    return 0;
}

int control_out(const uint8_t *bytes, uint32_t count)
{
    if (refusal() != 0 || (flags & RXOUTI) != 0) {
        return refusal() != 0 ? refusal() : AVR_IOCTL_USB_NAK;
    }
    fill(bytes, count, RXOUTI);
    idle_forget();
    return 0;
}

/* A bus reset closes the endpoint until it is opened anew. */
void control_reset(void)
{
    flags = 0;
    connection = 0;
    host_address = 0;
    set_address = NO_ADDRESS;
}

/* How often a byte was written over a SETUP packet that waited. */
int board_usb_spoiled(void)
{
    return spoiled;
}

/* How often a packet or a STALL was given while a SETUP packet waited. */
int board_usb_misgiven(void)
{
    return misgiven;
}

/* How often a byte was read that the packet did not have. */
int board_usb_overread(void)
{
    return overread;
}

/* --- building it ----------------------------------------------------------------------------- */

struct reading wrap_read(uint16_t address, avr_io_read_t read)
{
    avr_io_addr_t at = AVR_DATA_TO_IO(address);
    struct reading old = {avr->io[at].r.c, avr->io[at].r.param};

    avr->io[at].r.c = read;
    avr->io[at].r.param = NULL;
    return old;
}

void control_open(void)
{
    old_ueintx = wrap(UEINTX, write_ueintx, NULL);
    old_ueconx = wrap(UECONX, write_ueconx, NULL);
    old_uedatx = wrap(UEDATX, write_uedatx, NULL);
    old_uerst = wrap(UERST, write_uerst, NULL);
    old_read_ueintx = wrap_read(UEINTX, read_ueintx);
    old_read_ueconx = wrap_read(UECONX, read_ueconx);
    old_read_uedatx = wrap_read(UEDATX, read_uedatx);
    old_read_uebclx = wrap_read(UEBCLX, read_uebclx);
}
