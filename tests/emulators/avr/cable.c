/*
 * The host's end of the USB cable. What simavr leaves out of its USB block is added here as the datasheet
 * (Atmel 7766, sections 21 and 22) has it, where the firmware depends on it: UDINT's flags are cleared
 * by writing 0, UERST empties an endpoint, KILLBK throws a packet away, the bus can sleep and wake, and
 * the chip can wake it.
 *
 * The bus is idle, or busy (a reset, a resume, a transient), or has a start of frame each millisecond. A
 * busy bus sets WAKEUPI as often as it is cleared; with the block's clock frozen nothing else is seen,
 * and no flag can be cleared. An idle bus sets SUSPI once: not again after a transient, unless there
 * were frames in between (7707, errata).
 */
#include "board.h"

DEFINE_FIFO(avr_int_vector_p, avr_int_pending);

enum { UDIEN = 0xE2, UDADDR = 0xE3, UEINTX = 0xE8, UENUM = 0xE9, UERST = 0xEA, UECONX = 0xEB };
enum { FRZCLK = 1 << 5, RMWKUP = 1 << 1, DETACH = 1 << 0 };
enum { USBE = 1 << 7, PLLE = 1 << 1, PLOCK = 1 << 0 };
enum { SUSPI = 1 << 0, SOFI = 1 << 2, EORSTI = 1 << 3, WAKEUPI = 1 << 4, EORSMI = 1 << 5, UPRSMI = 1 << 6 };
enum { KILLBK = 1 << 2, FIFOCON = 1 << 7 };
enum { LOCK_US = 100 }; /* what the PLL takes, 7766 section 6.11 */
enum { STALLRQ = 1 << 5, STALLRQC = 1 << 4, EPEN = 1 << 0 };

static struct wrapped old_ueintx, old_udcon, old_uerst, old_pllcsr, old_usbcon;

static uint64_t armed_at[8]; /* 0: nothing to take */
static int wakes;            /* how often the chip has signalled the host to wake */
static int frozen_uses;      /* endpoint registers used while their clock stood still */
static int attaches;
static int lost_resets; /* whose end a frozen block has missed */
static int pll_failures;
static bool busy;

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

    (void)param;
    idle_forget();
    if ((chip->data[USBCON] & FRZCLK) != 0) {
        frozen_uses++;
    }
    if (endpoint == 0) {
        pass_on(&old_ueintx, address, value);
        return;
    }
    if ((value & FIFOCON) == 0 && (endpoint_register(UEINTX, endpoint) & FIFOCON) != 0) {
        armed_at[endpoint] = chip->cycle;
    }
    pass_on(&old_ueintx, address, value);
    if ((value & KILLBK) != 0) {
        uint8_t bytes[64];
        uint32_t length = 0;
        usb(AVR_IOCTL_USB_READ, endpoint, bytes, &length);
        armed_at[endpoint] = 0;
    }
}

static void write_uerst(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    pass_on(&old_uerst, address, value);
    for (uint8_t endpoint = 1; endpoint < 5; endpoint++) {
        uint8_t state = endpoint_register(UECONX, endpoint);
        if ((value >> endpoint & 1) == 0 || (state & EPEN) == 0) {
            continue;
        }
        uint8_t chosen = chip->data[UENUM], bytes[64];
        uint32_t length = 0;
        avr_io_addr_t at = AVR_DATA_TO_IO(UECONX);
        chip->data[UENUM] = endpoint;
        judge_is_away = true;
        chip->io[at].w.c(chip, UECONX, STALLRQC | EPEN, chip->io[at].w.param);
        usb(AVR_IOCTL_USB_READ, endpoint, bytes, &length);
        chip->io[at].w.c(chip, UECONX, state & (STALLRQ | EPEN), chip->io[at].w.param);
        judge_is_away = false;
        chip->data[UENUM] = chosen;
        armed_at[endpoint] = 0;
    }
}

static bool frozen(void)
{
    return (avr->data[USBCON] & FRZCLK) != 0 || (avr->data[PLLCSR] & PLOCK) == 0;
}

static avr_int_vector_t *usb_general(void)
{
    int place = 0;

    while (avr->interrupts.vector[place]->vector != (is_162() ? 11 : 10)) {
        place++;
    }
    return avr->interrupts.vector[place];
}

static avr_cycle_count_t raise_interrupt(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    avr_raise_interrupt(chip, usb_general());
    return 0;
}

static void forget_interrupt(void)
{
    avr_int_pending_t *pending = &avr->interrupts.pending;

    for (int left = avr_int_pending_get_read_size(pending); left > 0; left--) {
        avr_int_vector_t *vector = avr_int_pending_read(pending);
        if (vector != usb_general()) {
            avr_int_pending_write(pending, vector);
        }
    }
    usb_general()->pending = 0;
}

/*
 * The interrupt waits for as long as its flag is set and enabled, no longer. It is raised between two
 * instructions: raised while simavr stands still in a sleep, it would be forgotten.
 */
static void look_at_flags(void)
{
    avr_cycle_timer_cancel(avr, raise_interrupt, NULL);
    if ((avr->data[UDINT] & avr->data[UDIEN]) != 0) {
        avr_cycle_timer_register(avr, NAP_BEGINS, raise_interrupt, NULL);
    } else {
        forget_interrupt();
    }
}

static void signal_flag(uint8_t flag)
{
    if ((avr->data[USBCON] & USBE) != 0) {
        avr->data[UDINT] |= frozen() ? WAKEUPI : flag;
        look_at_flags();
    }
}

static void write_udint(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if (!frozen()) {
        chip->data[address] &= value;
        look_at_flags();
    }
    if (busy) {
        signal_flag(WAKEUPI);
    }
}

static void write_udien(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    chip->data[address] = value;
    look_at_flags();
}

static avr_cycle_count_t pll_locks(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    chip->data[PLLCSR] |= PLOCK;
    return 0;
}

static void write_pllcsr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    bool starts = (value & ~chip->data[address] & PLLE) != 0;

    (void)param;
    uint8_t locked = chip->data[address] & PLOCK;
    pass_on(&old_pllcsr, address, value);
    chip->data[address] = (chip->data[address] & ~PLOCK) | ((value & PLLE) != 0 ? locked : 0);
    if ((value & PLLE) == 0) {
        avr_cycle_timer_cancel(chip, pll_locks, NULL);
    } else if (starts && pll_failures > 0) {
        pll_failures--;
    } else if (starts) {
        avr_cycle_timer_register_usec(chip, LOCK_US, pll_locks, NULL);
    }
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
    pass_on(&old_udcon, address, value);
}

/* Switched off, the block is reset: it is detached, and nothing of what it was told is left (7766, USBCON). */
static void write_usbcon(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    bool was_on = (chip->data[address] & USBE) != 0;

    (void)param;
    pass_on(&old_usbcon, address, value);
    if (was_on && (value & USBE) == 0) {
        chip->data[UDCON] = DETACH;
        chip->data[UDINT] = chip->data[UDIEN] = chip->data[UDADDR] = 0;
    }
}

enum { UDFNUM = 0xE4, FRAME_NUMBERS = 2048 };

static uint16_t frames;
static uint32_t frame_cycles;

static avr_cycle_count_t frame(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)param;
    signal_flag(SOFI | WAKEUPI);
    frames = (frames + 1) % FRAME_NUMBERS;
    chip->data[UDFNUM] = (uint8_t)frames;
    chip->data[UDFNUM + 1] = (uint8_t)(frames >> 8);
    return when + frame_cycles;
}

/* The host's clock is not the chip's. */
void board_usb_frames_each(uint32_t cycles)
{
    frame_cycles = cycles;
}

static void set_bus(bool is_busy, bool has_frames)
{
    busy = is_busy;
    idle_forget();
    avr_cycle_timer_cancel(avr, frame, NULL);
    if (has_frames) {
        avr_cycle_timer_register_usec(avr, 1000, frame, NULL);
    }
    if (busy) {
        signal_flag(WAKEUPI);
    }
}

/* A bus reset has begun; the next call ends it. */
void board_usb_reset(void)
{
    set_bus(true, false);
}

void board_usb_reset_end(void)
{
    memset(armed_at, 0, sizeof armed_at);
    if (frozen()) {
        lost_resets++;
    } else {
        avr_ioctl(avr, AVR_IOCTL_USB_RESET, NULL);
        avr->data[UDADDR] = 0; /* 7766 section 22.7 */
        control_reset();
        judge_bus_reset();
        receive_reset();
        look_at_flags();
    }
    set_bus(false, true);
}

/* The bus has been idle for 3 ms. */
void board_usb_suspend(void)
{
    set_bus(false, false);
    signal_flag(SUSPI);
}

static avr_cycle_count_t transient(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)chip, (void)when, (void)param;
    signal_flag(WAKEUPI);
    return 0;
}

/* Something disturbs an idle bus for a moment, so many cycles from now: also in the middle of a nap. */
void board_usb_transient(uint64_t cycles)
{
    avr_cycle_timer_register(avr, cycles, transient, NULL);
}

/* The host resumes the bus, whoever asked for it; the next call ends that. */
void board_usb_resume(void)
{
    avr->data[UDCON] &= ~RMWKUP;
    set_bus(true, false);
}

void board_usb_resume_end(void)
{
    signal_flag(EORSMI);
    set_bus(false, true);
}

void board_usb_pll_fails(int times)
{
    pll_failures = times;
}

/* 0, or simavr's AVR_IOCTL_USB_NAK or _STALL. */
int board_usb_in(int endpoint, uint8_t *bytes, uint32_t *length)
{
    if (endpoint == 0) {
        return control_in(bytes, length);
    }
    if (!control_hears()) {
        return AVR_IOCTL_USB_NAK;
    }
    uint32_t got = 0;
    int result = usb(AVR_IOCTL_USB_READ, (uint8_t)endpoint, bytes, &got);

    *length = got;
    if (result == 0 && got == 0 && armed_at[endpoint] == 0) {
        return AVR_IOCTL_USB_NAK; /* simavr has an empty packet of a bulk endpoint that has none */
    }
    if (result == 0) {
        armed_at[endpoint] = 0;
        judge_packet_passed(endpoint);
        idle_forget();
    }
    return result;
}

int board_usb_out(int endpoint, uint8_t *bytes, uint32_t length)
{
    idle_forget();
    return endpoint == 0 ? control_out(bytes, length) : receive_out(bytes, length);
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

int board_usb_lost_resets(void)
{
    return lost_resets;
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
        if (!run_some(end - avr->cycle)) {
            return 0;
        }
    }
    return armed_at[endpoint];
}

void cable_open(void)
{
    frame_cycles = avr->frequency / 1000;
    control_open();
    old_ueintx = wrap(UEINTX, write_ueintx, NULL);
    old_udcon = wrap(UDCON, write_udcon, NULL);
    old_usbcon = wrap(USBCON, write_usbcon, NULL);
    old_pllcsr = wrap(PLLCSR, write_pllcsr, NULL);
    wrap(UDINT, write_udint, NULL);
    wrap(UDIEN, write_udien, NULL);
    old_uerst = wrap(UERST, write_uerst, NULL);
    receive_open();
}
