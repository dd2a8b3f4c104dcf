/*
 * The USB block's endpoints (7766 section 22): their memory, what has to come before they are used, and
 * the order in which a packet is made ready.
 *
 *   22.7   an endpoint is activated so: chosen, EPEN, direction and type, size and ALLOC, CFGOK read
 *   21.9   memory is given out in growing order; giving or taking it moves what the next one has. 7707
 *          section 19.6 and 7593 section 22.7 say that it shall be done in that order
 *   22.4   a set bit of UERST holds an endpoint in reset; its memory and its toggle stay
 *   22.14  TXINI is cleared, then come the bytes, then FIFOCON is cleared
 *   USB 2.0 sections 9.1.1.5 and 9.4.5: the host is at DATA0 after it has set a configuration or an
 *          interface, and after it has cleared a halt
 */
#include "judge.h"

enum { ENDPOINTS = 7 };
enum { FIFOCON = 1 << 7, TXINI = 1 << 0, STALLRQ = 1 << 5, RSTDT = 1 << 3, EPEN = 1 << 0 };
enum { ALLOC = 1 << 1, CFGOK = 1 << 7, EPDIR = 1 << 0 };
enum { NOT_IN_0X = 0x3E, NOT_IN_1X = 0x81 }; /* reserved: to be written as 0, 7766 section 22.18.2 */
enum { CLEAR_FEATURE = 1, SET_CONFIGURATION = 9, SET_INTERFACE = 11 };

static struct endpoint {
    bool enabled, has_memory, looked; /* looked: CFGOK was read as 1 */
    bool acknowledged;                /* TXINI was cleared, FIFOCON not yet */
    bool data1, host_data1;
    uint8_t kind;
    unsigned size, written;
} endpoints[ENDPOINTS];

static uint8_t in_reset;
static uint8_t restarts; /* endpoints whose toggle the host resets when its request is done */

static struct wrapped old_ueintx, old_uerst, old_ueconx, old_uecfg0x, old_uecfg1x, old_uedatx;

static struct endpoint *chosen(uint8_t *number)
{
    *number = avr->data[UENUM] & 7;
    if (*number >= ENDPOINTS) {
        judge_finds("endpoint %d: there is none", *number);
        *number = 0;
    }
    return &endpoints[*number];
}

/* What is true of every write to an endpoint's registers. */
static struct endpoint *touched(uint8_t *number, const char *what)
{
    struct endpoint *one = chosen(number);

    if ((avr->data[USBCON] & (USBE | FRZCLK)) != USBE) {
        judge_finds("endpoint %d: %s while the block is off or its clock frozen", *number, what);
    }
    if ((in_reset >> *number & 1) != 0) {
        judge_finds("endpoint %d: %s while UERST holds it in reset", *number, what);
    }
    return one;
}

/* What is true of every packet. */
static struct endpoint *used(uint8_t *number, const char *what)
{
    struct endpoint *one = touched(number, what);

    if (!one->enabled) {
        judge_finds("endpoint %d: %s without EPEN", *number, what);
    }
    if (!one->has_memory) {
        judge_finds("endpoint %d: %s without ALLOC", *number, what);
    } else if (!one->looked) {
        judge_finds("endpoint %d: %s before CFGOK was read", *number, what);
    }
    if (*number != 0 && (avr->data[UDADDR] & ADDEN) == 0) {
        judge_finds("endpoint %d: %s while ADDEN is clear", *number, what);
    }
    return one;
}

/* --- memory ------------------------------------------------------------------------------------ */

static void look_at_order(uint8_t number)
{
    for (int above = number + 1; above < ENDPOINTS; above++) {
        if (endpoints[above].has_memory && !endpoints[number].has_memory) {
            judge_finds("endpoint %d: memory is given out in growing order, and endpoint %d has it",
                        number, above);
        } else if (endpoints[above].has_memory && endpoints[above].enabled) {
            judge_finds("endpoint %d: what is done to its memory moves that of endpoint %d, which is in use",
                        number, above);
        }
    }
}

static bool fits(void)
{
    unsigned all = 0;

    for (int number = 0; number < ENDPOINTS; number++) {
        all += endpoints[number].has_memory ? endpoints[number].size : 0;
    }
    return all <= (is_162() ? 176u : 832u); /* 7707 and 7766, the first page of the USB chapter */
}

static void write_uecfg1x(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t number;
    struct endpoint *one = touched(&number, "UECFG1X");

    (void)chip, (void)param;
    if ((value & ALLOC) != 0 || one->has_memory) {
        look_at_order(number);
    }
    if ((value & ALLOC) != 0 && !one->enabled) {
        judge_finds("endpoint %d: ALLOC before EPEN", number);
    }
    if ((value & NOT_IN_1X) != 0) {
        judge_finds("endpoint %d: UECFG1X: a bit that is reserved", number);
    }
    one->has_memory = (value & ALLOC) != 0;
    one->size = (8u << (value >> 4 & 7)) << (value >> 2 & 3);
    one->looked = false;
    if (!fits()) {
        judge_finds("endpoint %d: the block has not so much memory", number);
    }
    pass_on(&old_uecfg1x, address, value);
}

static void write_uecfg0x(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t number;
    struct endpoint *one = touched(&number, "UECFG0X");

    (void)chip, (void)param;
    if (!one->enabled) {
        judge_finds("endpoint %d: UECFG0X before EPEN", number);
    }
    if ((value & NOT_IN_0X) != 0) {
        judge_finds("endpoint %d: UECFG0X: a bit that is reserved", number);
    }
    one->kind = value;
    pass_on(&old_uecfg0x, address, value);
}

/* simavr says nothing of endpoint 0, which the harness has for itself. */
static uint8_t read_uesta0x(avr_t *chip, avr_io_addr_t address, void *param)
{
    uint8_t number;
    struct endpoint *one = chosen(&number);

    (void)chip, (void)address, (void)param;
    one->looked = one->enabled && one->has_memory && fits();
    return one->looked ? CFGOK : 0;
}

/* --- state ------------------------------------------------------------------------------------- */

static void write_ueconx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t number;

    (void)chip, (void)param;
    if (!judge_is_away) {
        struct endpoint *one = touched(&number, "UECONX");
        one->enabled = (value & EPEN) != 0;
        if (!one->enabled || (value & RSTDT) != 0) {
            one->data1 = false;
        }
        if ((value & STALLRQ) != 0 && !one->has_memory) {
            judge_finds("endpoint %d: STALLRQ without ALLOC", number);
        }
    }
    pass_on(&old_ueconx, address, value);
}

static void write_uerst(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    in_reset = value;
    for (int number = 0; number < ENDPOINTS; number++) {
        if ((value >> number & 1) != 0) {
            endpoints[number].acknowledged = false;
            endpoints[number].written = 0;
        }
    }
    pass_on(&old_uerst, address, value);
}

/* --- packets ----------------------------------------------------------------------------------- */

static uint8_t flags(void)
{
    avr_io_addr_t at = AVR_DATA_TO_IO(UEINTX);

    return avr->io[at].r.c(avr, UEINTX, avr->io[at].r.param);
}

static bool sends(const struct endpoint *one)
{
    return (one->kind & EPDIR) != 0;
}

static void give(struct endpoint *one, uint8_t number, uint8_t cleared)
{
    if ((cleared & FIFOCON) != 0 && !one->acknowledged && (cleared & TXINI) == 0) {
        judge_finds("endpoint %d: FIFOCON is cleared without TXINI", number);
    }
    if ((cleared & TXINI) != 0) {
        one->acknowledged = true;
        one->written = 0;
    }
    if ((cleared & FIFOCON) != 0) {
        one->acknowledged = false;
    }
}

static void write_ueintx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t number;
    struct endpoint *one = used(&number, "UEINTX");

    (void)chip, (void)param;
    if (number != 0 && sends(one)) {
        give(one, number, (uint8_t)(flags() & ~value));
    } else if (number == 0 && (flags() & ~value) != 0) {
        one->written = 0;
    }
    pass_on(&old_ueintx, address, value);
}

static void write_uedatx(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t number;
    struct endpoint *one = used(&number, "UEDATX");

    (void)chip, (void)param;
    if (number == 0 ? (flags() & TXINI) == 0 : !sends(one) || !one->acknowledged) {
        judge_finds("endpoint %d: a byte is written before the bank is the program's, or after", number);
    }
    if (one->written++ >= one->size) {
        judge_finds("endpoint %d: more bytes than its bank has", number);
    }
    pass_on(&old_uedatx, address, value);
}

/* UECFG0X as the program has set it. */
int board_endpoint_kind(int number)
{
    return endpoints[number].kind;
}

/* --- the host's side --------------------------------------------------------------------------- */

/* All endpoints are disabled, endpoint 0 too until it is opened anew; their memory stays. */
void judge_bus_reset(void)
{
    for (int number = 0; number < ENDPOINTS; number++) {
        struct endpoint *one = &endpoints[number];
        one->enabled = one->acknowledged = one->data1 = one->host_data1 = false;
    }
}

void judge_setup(const uint8_t *packet)
{
    restarts = 0;
    if (packet[0] <= 1 && (packet[1] == SET_CONFIGURATION || packet[1] == SET_INTERFACE)) {
        restarts = packet[1] == SET_INTERFACE ? (uint8_t)(2u << packet[4]) : 0xFE;
    } else if (packet[0] == 2 && packet[1] == CLEAR_FEATURE) {
        restarts = (uint8_t)(1u << (packet[4] & 7));
    }
}

void judge_status_taken(void)
{
    for (int number = 1; number < ENDPOINTS; number++) {
        if ((restarts >> number & 1) != 0) {
            endpoints[number].host_data1 = false;
        }
    }
    restarts = 0;
}

void judge_packet_passed(int number)
{
    struct endpoint *one = &endpoints[number];

    if (one->data1 != one->host_data1) {
        judge_finds("endpoint %d: at DATA%d, and the host at DATA%d", number, one->data1,
                    one->host_data1);
    }
    one->data1 = !one->data1;
    one->host_data1 = !one->host_data1;
}

/* --- building it ------------------------------------------------------------------------------- */

void judge_endpoints_start(void)
{
    memset(endpoints, 0, sizeof endpoints);
    in_reset = restarts = 0;
}

void judge_endpoints_open(void)
{
    old_ueintx = wrap(UEINTX, write_ueintx, NULL);
    old_uerst = wrap(UERST, write_uerst, NULL);
    old_ueconx = wrap(UECONX, write_ueconx, NULL);
    old_uecfg0x = wrap(UECFG0X, write_uecfg0x, NULL);
    old_uecfg1x = wrap(UECFG1X, write_uecfg1x, NULL);
    old_uedatx = wrap(UEDATX, write_uedatx, NULL);
    wrap_read(UESTA0X, read_uesta0x);
}
