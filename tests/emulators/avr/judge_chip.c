/*
 * Clocks, watchdog and sleep: 7766 sections 6.10, 7.2, 8.2 and 26.5.1, and the pages of the registers.
 *
 *   CLKPR     changes only within four cycles of CLKPCE, written alone
 *   WDTCSR    WDE and WDP change only within four cycles of WDCE and WDE, written together, and right
 *             after the watchdog was reset, as in the datasheet's example; WDE cannot be cleared while MCUSR has WDRF
 *   sleep     with SE and power-down chosen; something that wakes the chip again is enabled, and no
 *             flag of an earlier nap ends it at once; nor while the host is being woken (UDCON)
 *   MCUCR     by the time the device attaches, JTAG has let its pins go (leavings.c has the sequence)
 */
#include "judge.h"

enum { SMCR = 0x53, MCUSR = 0x54, MCUCR = 0x55, WDTCSR = 0x60, CLKPR = 0x61 };
enum { CLKPCE = 1 << 7, JTD = 1 << 7, WDRF = 1 << 3, SE = 1 << 0, MODE = 7 << 1, POWER_DOWN = 2 << 1 };
enum { RMWKUP = 1 << 1 };
enum { WDIF = 1 << 7, WDIE = 1 << 6, WDCE = 1 << 4, WDE = 1 << 3, WDP = 0x27, WAKEUPE = 1 << 4 };
enum { TIMED = 4, IN_VAIN = 8, RIGHT_AFTER = 64 };

static avr_cycle_count_t clkpr_unlocked, wdtcsr_unlocked, fed;
static bool naps;

static struct wrapped old_clkpr, old_wdtcsr, old_smcr;

static bool within(avr_cycle_count_t since, avr_cycle_count_t cycles)
{
    return since != 0 && avr->cycle - since <= cycles;
}

/* simavr has no such register; what comes late changes nothing. */
static void write_clkpr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if (value == CLKPCE) {
        clkpr_unlocked = chip->cycle;
    } else if (!within(clkpr_unlocked, TIMED)) {
        judge_finds("CLKPR: not within four cycles of CLKPCE");
    } else {
        pass_on(&old_clkpr, address, value);
    }
}

/* WDE was written along with WDCE: the watchdog runs, with whatever time it had. */
static avr_cycle_count_t unlocked_in_vain(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)chip, (void)when, (void)param;
    judge_finds("WDTCSR: unlocked, and not written within four cycles");
    return 0;
}

static void write_wdtcsr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t changed = value ^ chip->data[address];

    (void)param;
    avr_cycle_timer_cancel(chip, unlocked_in_vain, NULL);
    if ((value & (WDCE | WDE)) == (WDCE | WDE)) {
        wdtcsr_unlocked = chip->cycle;
        avr_cycle_timer_register(chip, IN_VAIN, unlocked_in_vain, NULL);
        pass_on(&old_wdtcsr, address, value);
        return;
    }
    if ((changed & (WDE | WDP)) != 0 && !within(wdtcsr_unlocked, TIMED)) {
        judge_finds("WDTCSR: not within four cycles of WDCE and WDE");
    }
    if ((changed & WDP) != 0 && !within(fed, RIGHT_AFTER)) {
        judge_finds("WDTCSR: another time, and the watchdog was not reset right before");
    }
    if ((changed & ~value & WDE) != 0 && !within(fed, RIGHT_AFTER)) {
        judge_finds("WDTCSR: turned off, and the watchdog was not reset right before");
    }
    if ((value & WDE) == 0 && (chip->data[MCUSR] & WDRF) != 0) {
        judge_finds("WDTCSR: the watchdog stays on for as long as MCUSR has WDRF");
    }
    pass_on(&old_wdtcsr, address, value);
}

/* --- sleep ------------------------------------------------------------------------------------- */

static void write_smcr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    bool has_not_slept = (chip->data[address] & SE) != 0 && !naps;

    (void)param;
    if (has_not_slept && (chip->data[WDTCSR] & WDIF) != 0) {
        judge_finds("sleep: WDIF, which an earlier nap left, ends this one at once");
    }
    naps = false;
    pass_on(&old_smcr, address, value);
}

/* The chip sleeps; the first call of a nap counts. */
void judge_nap(void)
{
    uint8_t mode = avr->data[SMCR], watchdog = avr->data[WDTCSR];

    if (naps) {
        return;
    }
    naps = true;
    if ((mode & SE) == 0) {
        judge_finds("sleep: SE is clear, so that the instruction does nothing");
    } else if ((mode & MODE) != POWER_DOWN) {
        judge_finds("sleep: power-down is not chosen");
    }
    if ((avr->data[PLLCSR] & PLLE) != 0) {
        judge_finds("sleep: the PLL is on");
    }
    if ((avr->data[USBCON] & USBE) != 0 && (avr->data[UDIEN] & WAKEUPE) == 0) {
        judge_finds("sleep: the bus cannot wake the chip, WAKEUPE is clear");
    }
    if ((avr->data[UDCON] & RMWKUP) != 0) {
        judge_finds("sleep: the block is still signalling to the host, RMWKUP is set");
    }
    if ((watchdog & WDIE) == 0) {
        judge_finds("sleep: the watchdog cannot wake the chip, WDIE is clear");
    }
}

/* --- building it ------------------------------------------------------------------------------- */

void judge_chip_at_attach(void)
{
    if ((avr->data[CLKPR] & 0x0F) != 0) {
        judge_finds("attached with the clock divided");
    }
    if (!is_162() && (avr->data[MCUCR] & JTD) == 0) {
        judge_finds("attached, and JTAG still has its pins");
    }
}

static int note_feeding(avr_io_t *io, uint32_t what, void *param)
{
    (void)param;
    if (what == AVR_IOCTL_WATCHDOG_RESET) {
        fed = io->avr->cycle;
    }
    return -1;
}

void judge_chip_start(void)
{
    clkpr_unlocked = wdtcsr_unlocked = fed = 0;
    naps = false;
}

void judge_chip_open(void)
{
    static avr_io_t watching = {.kind = "judge of the chip", .ioctl = note_feeding};

    old_clkpr = wrap(CLKPR, write_clkpr, NULL);
    old_wdtcsr = wrap(WDTCSR, write_wdtcsr, NULL);
    old_smcr = wrap(SMCR, write_smcr, NULL);
    avr_register_io(avr, &watching);
}
