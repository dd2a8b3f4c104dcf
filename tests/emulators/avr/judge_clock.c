/*
 * The ATmega32U4's clock switch (7766 section 6.8, from memory; addresses and bits by avr-libc). One type
 * of the chip starts from its RC oscillator, the others from the crystal. simavr has neither.
 *
 *   CLKSEL0   EXTE starts the crystal, with what EXCKSEL says it is; EXTON tells when it runs; only then
 *             CLKS may choose it, and only after that RCE may stop the other one
 *   USB       needs the crystal
 */
#include "judge.h"

enum { CLKSEL0 = 0xC5, CLKSEL1 = 0xC6, CLKSTA = 0xC7 };
enum { RCE = 1 << 3, EXTE = 1 << 2, CLKS = 1 << 0, RCON = 1 << 1, EXTON = 1 << 0 };
enum { EXCKSEL = 0x0F, CRYSTAL_8_TO_16_MHZ = 0x0E, RC_8_MHZ = 0x20 };
enum { STARTS_US = 1024 + 4100 };

static bool is_rc_type, crystal_is_dead;
static struct wrapped old_clksel0;

static avr_cycle_count_t crystal_runs(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)when, (void)param;
    chip->data[CLKSTA] |= crystal_is_dead ? 0 : EXTON;
    return 0;
}

static void write_clksel0(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t risen = value & (uint8_t)~chip->data[address];

    (void)param;
    if ((risen & EXTE) != 0) {
        if ((chip->data[CLKSEL1] & EXCKSEL & ~1) != CRYSTAL_8_TO_16_MHZ) {
            judge_finds("CLKSEL0: the crystal starts before CLKSEL1 says that it is one of 8 to 16 MHz");
        }
        avr_cycle_timer_register_usec(chip, STARTS_US, crystal_runs, NULL);
    }
    if ((risen & CLKS) != 0 && (chip->data[CLKSTA] & EXTON) == 0) {
        judge_finds("CLKSEL0: the crystal is chosen before it runs");
    }
    if ((value & (CLKS | RCE)) == 0) {
        judge_finds("CLKSEL0: the RC oscillator is stopped while the chip runs from it");
    }
    pass_on(&old_clksel0, address, value);
}

void judge_clock_at_attach(void)
{
    if (!is_162() && (avr->data[CLKSEL0] & CLKS) == 0) {
        judge_finds("attached while the chip runs from its RC oscillator");
    } else if (!is_162() && (avr->data[CLKSEL0] & RCE) != 0) {
        judge_finds("attached with the RC oscillator on, which nobody needs");
    }
}

/* What the fuses of either type make of a reset. */
void judge_clock_start(void)
{
    if (!is_162()) {
        avr->data[CLKSEL0] = is_rc_type ? RCE : EXTE | CLKS;
        avr->data[CLKSEL1] = is_rc_type ? RC_8_MHZ : RC_8_MHZ | EXCKSEL;
        avr->data[CLKSTA] = is_rc_type ? RCON : EXTON;
    }
}

/* The chip is one whose ordering code ends in RC; its crystal starts, or never does. */
void board_rc_type(int starts)
{
    is_rc_type = true;
    crystal_is_dead = !starts;
    judge_clock_start();
}

void judge_clock_open(void)
{
    if (!is_162()) {
        old_clksel0 = wrap(CLKSEL0, write_clksel0, NULL);
    }
}
