/*
 * What a boot loader left when it jumped to the firmware, and what the chip makes of it: Atmel 7766 and
 * 7707, the pages of the registers named. simavr has none of this.
 *
 *   IVSEL         interrupts go to the boot section, where the loader's handler waits for ever; it
 *                 changes only after IVCE, within four cycles
 *   JTD           changes only when written twice within four cycles
 *   PRR0, PRR1    the registers of a part whose clock is off cannot be written
 *   TXEN and so on  the part takes the pin from its port
 *   SREG          with I set, one of the interrupts that are enabled comes soon after the jump
 *   any interrupt that is enabled besides the two that may wake a nap comes as soon as one begins
 */
#include "board.h"

#include <string.h>

#include <simavr/avr_watchdog.h>

enum { WDTCSR = 0x60, WDE = 1 << 3, WATCHDOG_MS = 16 };
enum { SMCR = 0x53, SE = 1 };
enum { MCUCR = 0x55, IVCE = 1 << 0, IVSEL = 1 << 1, PUD = 1 << 4, JTD = 1 << 7 };
enum { PRR0 = 0x64, PRR1 = 0x65 };
enum { TCCR0A = 0x44, SPCR = 0x4C, ADCSRA = 0x7A, DIDR0 = 0x7E, TWCR = 0xBC, UCSR1B = 0xC9 };
enum { TCCR1A = 0x80, TCCR1B = 0x81, UHWCON = 0xD7 };
enum { SPE = 1 << 6, MSTR = 1 << 4, TWEN = 1 << 2, TXEN = 1 << 3, COM0B = 0x30 };
enum { SREG_AT = 0x5F, I_FLAG = 7, SOON = 12 };
enum { TIMED = 4 };

static uint32_t boot_section;
static struct wrapped old_mcucr, old_smcr;
static avr_cycle_count_t unlocked_at, jtd_at;

static struct gated {
    uint16_t address, reduction;
    uint8_t bit;
    struct wrapped old;
} gates[] = {
    {TCCR1A, PRR0, 3, {0}}, {TCCR1B, PRR0, 3, {0}}, {SPCR, PRR0, 2, {0}}, {ADCSRA, PRR0, 0, {0}},
    {TWCR, PRR0, 7, {0}},   {UCSR1B, PRR1, 0, {0}}, {USBCON, PRR1, 7, {0}}, {UDCON, PRR1, 7, {0}},
};

/* --- registers that are not written like any other ------------------------------------------- */

static void write_gated(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    struct gated *gate = param;

    if ((chip->data[gate->reduction] >> gate->bit & 1) == 0) {
        pass_on(&gate->old, address, value);
        pins_moved = true;
    }
}

static void write_mcucr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t kept = chip->data[address];
    bool unlocked = unlocked_at != 0 && chip->cycle - unlocked_at <= TIMED;
    bool again = jtd_at != 0 && chip->cycle - jtd_at <= TIMED;
    uint8_t follows = PUD | (unlocked && (value & IVCE) == 0 ? IVSEL : 0) | (again ? JTD : 0);

    (void)param;
    unlocked_at = (value & IVCE) != 0 ? chip->cycle : 0;
    jtd_at = (value & JTD) != (kept & JTD) ? chip->cycle : 0;
    pass_on(&old_mcucr, address, (kept & ~follows) | (value & follows));
    pins_moved = true;
}

/* --- interrupts ------------------------------------------------------------------------------ */

/* USB general and the watchdog; between them, of the endpoints, which simavr takes as always enabled. */
static bool wakes_a_nap(const avr_int_vector_t *vector)
{
    uint8_t usb_general = is_162() ? 11 : 10;

    return vector->vector >= usb_general && vector->vector <= usb_general + 2;
}

static avr_cycle_count_t raise_all(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    for (int place = 0; place < chip->interrupts.vector_count; place++) {
        avr_int_vector_t *vector = chip->interrupts.vector[place];
        if (vector->enable.reg != 0 && !wakes_a_nap(vector) && avr_regbit_get(chip, vector->enable)) {
            avr_raise_interrupt(chip, vector);
        }
    }
    return 0;
}

static avr_cycle_count_t raise_if_on(avr_t *chip, avr_cycle_count_t when, void *param)
{
    return chip->sreg[I_FLAG] != 0 ? raise_all(chip, when, param) : 0;
}

static void write_smcr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    pass_on(&old_smcr, address, value);
    if ((value & SE) != 0) {
        avr_cycle_timer_register(chip, NAP_BEGINS, raise_all, NULL);
    }
}

static void interrupt_taken(struct avr_irq_t *irq, uint32_t number, void *param)
{
    (void)irq, (void)param;
    if (number != 0 && (avr->data[MCUCR] & IVSEL) != 0) {
        avr->pc = boot_section + 4 * number;
    }
}

/* --- pins -------------------------------------------------------------------------------------- */

static bool is_set(uint16_t address, uint8_t bits)
{
    return (avr->data[address] & bits) != 0;
}

static bool jtag_is_on(void)
{
    return !is_162() && !is_set(MCUCR, JTD);
}

static void take(uint8_t low[PORTS], int port, uint8_t bits)
{
    low[port] &= (uint8_t)~bits;
}

/* Before the keys are looked at: a line whose pin another part has taken is not driven. */
void leavings_take(uint8_t low[PORTS], uint8_t high[PORTS])
{
    for (int port = 0; is_set(MCUCR, PUD) && port < PORTS; port++) {
        high[port] &= avr->data[PIN_A + 3 * port + 1]; /* no pull-up: what floats is taken as low */
    }
    take(low, PORT_D, is_set(UCSR1B, TXEN) ? 1 << 3 : 0);
    take(low, PORT_D, is_set(TCCR0A, COM0B) ? 1 << 0 : 0);
    if (is_set(SPCR, SPE)) {
        take(low, PORT_B, is_set(SPCR, MSTR) ? 1 << 3 : 1 << 0 | 1 << 1 | 1 << 2);
    }
    if (!is_162() && is_set(TWCR, TWEN)) {
        take(low, PORT_D, 1 << 0 | 1 << 1);
    }
    take(low, PORT_F, jtag_is_on() ? 0xF0 : 0);
}

/* After it: what reads high or low whatever the lines do. */
void leavings_read(uint8_t levels[PORTS])
{
    levels[PORT_D] |= is_set(UCSR1B, TXEN) ? 1 << 3 : 0;
    levels[PORT_F] |= jtag_is_on() ? 0xF0 : 0;
    if (!is_162()) {
        levels[PORT_F] &= (uint8_t)~avr->data[DIDR0]; /* the input is off */
    }
}

/* --- building it ------------------------------------------------------------------------------- */

/* A watchdog that is left on has all of its shortest time left (7766 section 8.2), which simavr is told here. */
static void leave_watchdog_on(void)
{
    for (avr_io_t *io = avr->io_port; io != NULL; io = io->next) {
        if (io->kind != NULL && strcmp(io->kind, "watchdog") == 0) {
            ((avr_watchdog_t *)io)->cycle_count = avr->frequency / 1000 * WATCHDOG_MS;
        }
    }
    avr_ioctl(avr, AVR_IOCTL_WATCHDOG_RESET, NULL);
}

/* The boot loader leaves a value in a register, whatever writing it there would do. */
void board_leave(uint16_t address, uint8_t value)
{
    avr->data[address] = value;
    if (address == WDTCSR && (value & WDE) != 0) {
        leave_watchdog_on();
    }
    if (address == SREG_AT && value >> I_FLAG != 0) {
        avr->sreg[I_FLAG] = 1;
        avr_cycle_timer_register(avr, SOON, raise_if_on, NULL);
    }
    pins_moved = true;
    idle_forget();
}

void leavings_open(uint32_t boot_start)
{
    boot_section = boot_start;
    old_mcucr = wrap(MCUCR, write_mcucr, NULL);
    old_smcr = wrap(SMCR, write_smcr, NULL);
    for (size_t place = 0; place < sizeof gates / sizeof *gates; place++) {
        gates[place].old = wrap(gates[place].address, write_gated, &gates[place]);
    }
    avr_irq_register_notify(avr_get_interrupt_irq(avr, AVR_INT_ANY) + AVR_INT_IRQ_RUNNING,
                            interrupt_taken, NULL);
    for (uint32_t address = boot_start; address < boot_start + 4u * 64; address += 2) {
        avr->flash[address] = 0xFF; /* rjmp to itself */
        avr->flash[address + 1] = 0xCF;
    }
}
