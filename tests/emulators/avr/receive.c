/*
 * Endpoint 3, where it receives, as the datasheet has it (Atmel 7766, section 22.13), in place of simavr's,
 * which takes one packet and no more: RXOUTI and FIFOCON rise with a packet; the program clears RXOUTI,
 * reads, and clears FIFOCON, and only then is there room for the next. Other order or no order is counted.
 */
#include "board.h"

enum { UEINTX = 0xE8, UENUM = 0xE9, UERST = 0xEA, UECONX = 0xEB, UECFG0X = 0xEC };
enum { UEDATX = 0xF1, UEBCLX = 0xF2 };
enum { FIFOCON = 1 << 7, RXOUTI = 1 << 2, STALLRQ = 1 << 5, EPEN = 1 << 0, BULK_OUT = 0x80 };
enum { RECEIVING = 3, BANK = 16 };

static uint8_t bank[BANK];
static uint8_t length, position;
static uint8_t flags; /* RXOUTI and FIFOCON */
static uint8_t kind, connection;
static int misread;

static struct wrapped old_ueintx, old_ueconx, old_uecfg0x, old_uerst;
static struct reading old_read_ueintx, old_read_uedatx, old_read_uebclx;

static bool is_ours(void)
{
    return avr->data[UENUM] == RECEIVING && kind == BULK_OUT;
}

static void write_ueintx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if (!is_ours()) {
        pass_on(&old_ueintx, address, value);
        return;
    }
    uint8_t cleared = flags & ~value;
    idle_forget();
    misread += (cleared & FIFOCON) != 0 && (flags & RXOUTI) != 0;
    flags &= value;
}

static void write_ueconx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if (chip->data[UENUM] == RECEIVING) {
        connection = value & (STALLRQ | EPEN);
    }
    pass_on(&old_ueconx, address, value);
}

static void write_uecfg0x(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if (chip->data[UENUM] == RECEIVING) {
        kind = value;
    }
    pass_on(&old_uecfg0x, address, value);
}

static void write_uerst(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    if ((value >> RECEIVING & 1) != 0) {
        flags = 0;
    }
    pass_on(&old_uerst, address, value);
}

static uint8_t read_ueintx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    return is_ours() ? flags : pass_on_read(&old_read_ueintx, address);
}

static uint8_t read_uedatx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    if (!is_ours()) {
        return pass_on_read(&old_read_uedatx, address);
    }
    misread += (flags & FIFOCON) == 0 || position == length;
    return position < length ? bank[position++] : 0;
}

static uint8_t read_uebclx(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)chip, (void)param;
    return is_ours() ? (uint8_t)(length - position) : pass_on_read(&old_read_uebclx, address);
}

int receive_out(const uint8_t *bytes, uint32_t count)
{
    if ((connection & STALLRQ) != 0) {
        return AVR_IOCTL_USB_STALL;
    }
    if (kind != BULK_OUT || (connection & EPEN) == 0 || (flags & FIFOCON) != 0 || count > BANK) {
        return AVR_IOCTL_USB_NAK;
    }
    memcpy(bank, bytes, count);
    length = (uint8_t)count;
    position = 0;
    flags = RXOUTI | FIFOCON;
    return 0;
}

/* A bus reset closes the endpoint until it is opened anew. */
void receive_reset(void)
{
    flags = 0;
    connection = 0;
}

/* How often the bank was read while it was not the program's, or let go before its flag was cleared. */
int board_usb_misread(void)
{
    return misread;
}

void receive_open(void)
{
    old_ueintx = wrap(UEINTX, write_ueintx, NULL);
    old_ueconx = wrap(UECONX, write_ueconx, NULL);
    old_uecfg0x = wrap(UECFG0X, write_uecfg0x, NULL);
    old_uerst = wrap(UERST, write_uerst, NULL);
    old_read_ueintx = wrap_read(UEINTX, read_ueintx);
    old_read_uedatx = wrap_read(UEDATX, read_uedatx);
    old_read_uebclx = wrap_read(UEBCLX, read_uebclx);
}
