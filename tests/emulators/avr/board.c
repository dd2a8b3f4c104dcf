/*
 * A keyboard on a bench: libsimavr's chip, switches between its pins, and the host's end of the USB
 * cable. The tests load this as a shared library; one board a process.
 *
 * What simavr leaves out of its USB block is added here as the datasheet (Atmel 7766, sections 21 and
 * 22) has it, where the firmware depends on it: UDINT's flags are cleared by writing 0, UERST empties
 * an endpoint, KILLBK throws a packet away, the bus can sleep and wake, and the chip can wake it.
 */
#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <simavr/avr_ioport.h>
#include <simavr/avr_usb.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_core_decl.h>

enum { RAM = 0x100, UNTOUCHED = 0xA5 };
enum { PORTS = 6, PINS = PORTS * 8, PATHS = 4096 };

/* Addresses in data space; the same on both chips. */
enum {
    PIN_A = 0x20, /* then DDRA and PORTA, then port B's three */
    USBCON = 0xD8,
    UDCON = 0xE0,
    UDINT = 0xE1,
    UDIEN = 0xE2,
    UDADDR = 0xE3,
    UEINTX = 0xE8,
    UENUM = 0xE9,
    UERST = 0xEA,
    UECONX = 0xEB
};
enum { FRZCLK = 1 << 5, RMWKUP = 1 << 1 };
enum { SUSPI = 1 << 0, EORSTI = 1 << 3, WAKEUPI = 1 << 4, EORSMI = 1 << 5, UPRSMI = 1 << 6 };
enum { TXINI = 1 << 0, KILLBK = 1 << 2, RXSTPI = 1 << 3, FIFOCON = 1 << 7 };
enum { STALLRQ = 1 << 5, STALLRQC = 1 << 4, EPEN = 1 << 0 };

struct wrapped {
    avr_io_write_t write;
    void *param;
};

static avr_t *avr;
static struct wrapped old_ueintx, old_udcon;

/* --- the switch matrix --------------------------------------------------------------------- */

static struct {
    uint8_t from, to, key;
} paths[PATHS]; /* current can flow from one pin to the other while the key is closed */
static int path_count;
static bool closed[PATHS];

static uint8_t levels[PORTS]; /* what the pins read */
static uint8_t seen[PORTS * 3];
static bool moved; /* a key has */

static bool bit(const uint8_t *bytes, int pin)
{
    return bytes[pin / 8] >> (pin % 8) & 1;
}

/*
 * A pin reads low if it drives low, or if a path over closed keys leads from it to a pin that does;
 * the path may go over lines that nobody drives. A pin with neither path nor pull-up floats, and is
 * taken as low, so that a forgotten pull-up shows.
 */
static void solve_matrix(void)
{
    uint8_t low[PORTS], high[PORTS];
    bool changed = true;

    for (int port = 0; port < PORTS; port++) {
        uint8_t out = avr->data[PIN_A + 3 * port + 1], value = avr->data[PIN_A + 3 * port + 2];
        low[port] = out & ~value;
        high[port] = value;
    }
    while (changed) {
        changed = false;
        for (int path = 0; path < path_count; path++) {
            int from = paths[path].from, to = paths[path].to;
            bool drives = bit(&avr->data[PIN_A], from / 8 * 24 + 8 + from % 8);
            if (closed[paths[path].key] && bit(low, to) && !bit(low, from) && !drives) {
                low[from / 8] |= 1 << from % 8;
                changed = true;
            }
        }
    }
    for (int port = 0; port < PORTS; port++) {
        levels[port] = high[port] & ~low[port];
    }
}

static uint8_t read_pins(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)param;
    for (int port = 0; port < PORTS; port++) { /* DDRx and PORTx; PINx holds only what was read */
        uint8_t *registers = &chip->data[PIN_A + 3 * port];
        if (seen[3 * port + 1] != registers[1] || seen[3 * port + 2] != registers[2]) {
            seen[3 * port + 1] = registers[1];
            seen[3 * port + 2] = registers[2];
            moved = true;
        }
    }
    if (moved) {
        solve_matrix();
        moved = false;
    }
    return chip->data[address] = levels[(address - PIN_A) / 3];
}

int board_path(int key, int from, int to)
{
    if (path_count == PATHS) {
        return -1;
    }
    paths[path_count].key = (uint8_t)key;
    paths[path_count].from = (uint8_t)from;
    paths[path_count].to = (uint8_t)to;
    return path_count++;
}

void board_key(int key, int is_closed)
{
    closed[key] = is_closed;
    moved = true;
}

/* --- time ---------------------------------------------------------------------------------- */

static uint64_t slept;

static void count_sleep(avr_t *chip, avr_cycle_count_t cycles)
{
    (void)chip;
    slept += cycles;
}

static bool step(uint64_t most)
{
    avr->run_cycle_limit = most < 64 ? (most ? most : 1) : 64;
    int state = avr_run(avr);
    return state != cpu_Done && state != cpu_Crashed;
}

/* Let so many cycles pass, or a few more: an instruction is not cut, and a sleep ends when it ends. */
int board_run(uint64_t cycles)
{
    uint64_t end = avr->cycle + cycles;

    while (avr->cycle < end) {
        if (!step(end - avr->cycle)) {
            return -1;
        }
    }
    return 0;
}

uint64_t board_cycles(void)
{
    return avr->cycle;
}

uint64_t board_slept(void)
{
    return slept;
}

uint32_t board_pc(void)
{
    return avr->pc;
}

/* Put an endless jump at an address: a boot loader that does nothing. */
void board_plant_loop(uint32_t address)
{
    avr->flash[address] = 0xFF;
    avr->flash[address + 1] = 0xCF;
}

/* Stop feeding the watchdog, as a firmware that hangs does: go to an endless jump. */
void board_hang(uint32_t address)
{
    board_plant_loop(address);
    avr->pc = address;
}

uint8_t board_peek(uint16_t address)
{
    return avr->data[address];
}

void board_poke(uint16_t address, uint8_t value)
{
    avr->data[address] = value;
}

/* --- the host's end of USB ----------------------------------------------------------------- */

static uint64_t armed_at[8]; /* 0: nothing to take */
static int wakes;            /* how often the chip has signalled the host to wake */
static int frozen_uses;      /* endpoint registers used while their clock stood still */
static int attaches;

static int usb(uint32_t what, uint8_t endpoint, uint8_t *bytes, uint32_t *length)
{
    struct avr_io_usb packet = {endpoint, *length, bytes};
    int result = avr_ioctl(avr, what, &packet);

    *length = packet.sz;
    return result;
}

static uint8_t endpoint_register(uint16_t address, uint8_t endpoint)
{
    uint8_t chosen = avr->data[UENUM];
    avr_io_addr_t at = AVR_DATA_TO_IO(address);

    avr->data[UENUM] = endpoint;
    uint8_t value = avr->io[at].r.c(avr, address, avr->io[at].r.param);
    avr->data[UENUM] = chosen;
    return value;
}

static void write_ueintx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t endpoint = chip->data[UENUM];
    uint8_t end = endpoint == 0 ? TXINI : FIFOCON;

    (void)param;
    if ((chip->data[USBCON] & FRZCLK) != 0) {
        frozen_uses++;
    }
    if ((value & end) == 0 && (endpoint_register(UEINTX, endpoint) & end) != 0) {
        armed_at[endpoint] = chip->cycle;
    }
    old_ueintx.write(chip, address, value, old_ueintx.param);
    if (endpoint != 0 && (value & KILLBK) != 0) {
        uint8_t bytes[64];
        uint32_t length = 0;
        usb(AVR_IOCTL_USB_READ, endpoint, bytes, &length);
        armed_at[endpoint] = 0;
    }
}

static void write_uerst(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    chip->data[address] = value;
    for (uint8_t endpoint = 0; endpoint < 5; endpoint++) {
        uint8_t state = endpoint_register(UECONX, endpoint);
        if ((value >> endpoint & 1) == 0 || (state & EPEN) == 0) {
            continue;
        }
        uint8_t chosen = chip->data[UENUM], bytes[64];
        uint32_t length = 0;
        avr_io_addr_t at = AVR_DATA_TO_IO(UECONX);
        chip->data[UENUM] = endpoint;
        chip->io[at].w.c(chip, UECONX, STALLRQC | EPEN, chip->io[at].w.param);
        usb(AVR_IOCTL_USB_READ, endpoint, bytes, &length);
        chip->io[at].w.c(chip, UECONX, state & (STALLRQ | EPEN), chip->io[at].w.param);
        chip->data[UENUM] = chosen;
        armed_at[endpoint] = 0;
    }
}

static void write_udint(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    chip->data[address] &= value;
}

static void write_udcon(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if ((value & 1) == 0 && (chip->data[address] & 1) != 0) {
        attaches++;
    }
    if ((value & RMWKUP) != 0 && (chip->data[UDINT] & SUSPI) != 0 &&
        (chip->data[USBCON] & FRZCLK) == 0) {
        wakes++;
        chip->data[UDINT] = (chip->data[UDINT] & ~SUSPI) | UPRSMI;
    }
    old_udcon.write(chip, address, value, old_udcon.param);
}

static void interrupt(uint8_t flag)
{
    avr->data[UDINT] |= flag;
    if ((avr->data[UDIEN] & flag) == 0) {
        return;
    }
    uint8_t number = strcmp(avr->mmcu, "at90usb162") == 0 ? 11 : 10;
    for (int place = 0; place < avr->interrupts.vector_count; place++) {
        if (avr->interrupts.vector[place]->vector == number) {
            avr_raise_interrupt(avr, avr->interrupts.vector[place]);
        }
    }
}

void board_usb_reset(void)
{
    memset(armed_at, 0, sizeof armed_at);
    interrupt(avr->data[UDINT] & SUSPI ? WAKEUPI : 0);
    avr_ioctl(avr, AVR_IOCTL_USB_RESET, NULL);
}

void board_usb_suspend(void)
{
    avr->data[UDINT] |= SUSPI;
}

void board_usb_resume(void)
{
    avr->data[UDCON] &= ~RMWKUP;
    interrupt(wakes ? EORSMI : WAKEUPI);
}

/* 0, or simavr's AVR_IOCTL_USB_NAK or _STALL. */
int board_usb_setup(uint8_t *bytes)
{
    uint32_t length = 8;
    int result = usb(AVR_IOCTL_USB_SETUP, 0, bytes, &length);

    armed_at[0] = 0;
    return result;
}

/* Whether the chip has not yet read the last SETUP; until then it answers NAK to everything. */
int board_usb_setup_waits(void)
{
    return (endpoint_register(UEINTX, 0) & RXSTPI) != 0;
}

int board_usb_in(int endpoint, uint8_t *bytes, uint32_t *length)
{
    uint32_t got = 0;
    int result = usb(AVR_IOCTL_USB_READ, (uint8_t)endpoint, bytes, &got);

    *length = got;
    if (result == 0) {
        armed_at[endpoint] = 0;
    }
    return result;
}

int board_usb_out(int endpoint, uint8_t *bytes, uint32_t length)
{
    return usb(AVR_IOCTL_USB_WRITE, (uint8_t)endpoint, bytes, &length);
}

int board_usb_address(void)
{
    return avr->data[UDADDR];
}

int board_usb_attached(void)
{
    return attaches;
}

int board_usb_wakes(void)
{
    return wakes;
}

int board_usb_frozen_uses(void)
{
    return frozen_uses;
}

/* Run until the endpoint has a packet for the host: the cycle at which it got it, or 0. */
uint64_t board_run_until_armed(int endpoint, uint64_t cycles)
{
    uint64_t end = avr->cycle + cycles;

    while (armed_at[endpoint] == 0 && avr->cycle < end) {
        if (!step(end - avr->cycle)) {
            return 0;
        }
    }
    return armed_at[endpoint];
}

/* --- measuring ----------------------------------------------------------------------------- */

static bool drives(int pin)
{
    return bit(&avr->data[PIN_A], pin / 8 * 24 + 8 + pin % 8);
}

/* Run, one instruction at a time, until a pin drives or does not; the cycle, or 0 after a second. */
static uint64_t run_until(int pin, bool wanted)
{
    uint64_t end = avr->cycle + avr->frequency;

    while (drives(pin) != wanted && avr->cycle < end) {
        avr->run_cycle_limit = 1;
        avr_run(avr);
    }
    return avr->cycle < end ? avr->cycle : 0;
}

/* One scan, from the first driven line's low to the last one's release; and the main loop's period. */
int board_measure_scan(int first, int last, uint64_t *scan, uint64_t *period)
{
    run_until(first, true);
    run_until(first, false);
    uint64_t start = run_until(first, true);
    run_until(last, true);
    uint64_t end = run_until(last, false);
    uint64_t again = run_until(first, true);

    *scan = end - start;
    *period = again - start;
    return start != 0 && end != 0 && again != 0 ? 0 : -1;
}

/* --- building it --------------------------------------------------------------------------- */

static void quiet(avr_t *chip, const int level, const char *format, va_list values)
{
    (void)chip, (void)level, (void)format, (void)values;
}

static struct wrapped wrap(uint16_t address, avr_io_write_t write)
{
    avr_io_addr_t at = AVR_DATA_TO_IO(address);
    struct wrapped old = {avr->io[at].w.c, avr->io[at].w.param};

    avr->io[at].w.c = write;
    avr->io[at].w.param = NULL;
    return old;
}

int board_open(const char *chip, uint32_t hertz, uint8_t *flash, uint32_t size)
{
    avr_global_logger_set(quiet);
    avr = avr_make_mcu_by_name(chip);
    if (avr == NULL || avr_init(avr) != 0) {
        return -1;
    }
    avr->log = LOG_NONE;
    avr->frequency = hertz;
    avr->sleep = count_sleep;
    memset(avr->flash, 0xFF, avr->flashend + 1);
    avr_loadcode(avr, flash, size, 0);
    avr->codeend = avr->flashend;
    for (int port = 0; port < PORTS; port++) {
        avr_io_addr_t at = AVR_DATA_TO_IO(PIN_A + 3 * port);
        if (avr->io[at].r.c != NULL) {
            avr->io[at].r.c = read_pins;
        }
    }
    old_ueintx = wrap(UEINTX, write_ueintx);
    old_udcon = wrap(UDCON, write_udcon);
    wrap(UDINT, write_udint);
    wrap(UERST, write_uerst);
    memset(avr->data + RAM, UNTOUCHED, avr->ramend + 1 - RAM);
    moved = true;
    return 0;
}

void board_close(void)
{
    avr_terminate(avr);
    free(avr);
}

/* Bytes of RAM between the variables, which end before `address`, and the deepest stack so far. */
int board_ram_untouched(uint16_t address)
{
    int count = 0;

    while (address + count <= avr->ramend && avr->data[address + count] == UNTOUCHED) {
        count++;
    }
    return count;
}
