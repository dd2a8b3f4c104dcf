/*
 * The USB block's clock, pads and address: 7766 sections 6.11 and 21.5 to 21.7, 22.7 and 22.9; of the
 * AT90USB162, 7707 sections 6.11 and 20.
 *
 *   PLL       its input divider and PLLFRQ are set while it is off, and make 48 MHz of the crystal
 *   PLOCK     has risen before the block's clock is let go; that takes some 100 us
 *   FRZCLK    is set before the PLL stops
 *   USBE      what a boot loader left on is switched off first, which resets the whole block, and for so
 *             long that the host sees its device go: 2.5 us (USB 2.0 section 7.1.7.3)
 *   pads      their regulator is on, and on the larger chips the VBUS pad, before the device attaches
 *   address   UADD first and ADDEN after it, both after the status stage; the device answers to it alone
 */
#include "judge.h"

enum { PLLFRQ = 0x52, REGCR = 0x63, UHWCON = 0xD7 };
enum { REGDIS = 1 << 0, UVREGE = 1 << 0, OTGPADE = 1 << 4, DETACH = 1 << 0 };
enum { GONE_US = 3 };
enum { PINDIV = 1 << 4, PDIV = 0x0F, PLLUSB = 1 << 6, PLLTM = 0x30, PLLP = 0x1C, PLLP0 = 1 << 2 };

static bool is_ours;                  /* switched on by this program */
static avr_cycle_count_t off_since;   /* 0: since the reset          */

static struct wrapped old_pllcsr, old_pllfrq, old_usbcon, old_udcon, old_udaddr;

static unsigned crystal_mhz(void)
{
    return (unsigned)(avr->frequency / 1000000);
}

/* The PLL of the larger chips takes 8 MHz, and PDIV says what it makes of them (tables 6-14, 6-15). */
static bool makes_48_mhz(uint8_t control)
{
    if (is_162()) { /* 7707 table 6-11, PLLP: 000 for 8 MHz, 001 for 16 */
        return (control & PLLP) == (crystal_mhz() == 16 ? PLLP0 : 0);
    }
    unsigned input = crystal_mhz() / ((control & PINDIV) != 0 ? 2 : 1);
    uint8_t rate = avr->data[PLLFRQ];
    bool halved = (rate & PLLUSB) != 0;
    return input == 8 && (rate & PDIV) == (halved ? 10 : 4);
}

static void write_pllcsr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t before = chip->data[address];

    (void)param;
    if ((value & PLLE) != 0 && !makes_48_mhz(value)) {
        judge_finds("the PLL is on and does not make 48 MHz");
    }
    if ((value & before & PLLE) != 0 && ((value ^ before) & (PLLP | PINDIV)) != 0) {
        judge_finds("PLLCSR: the input is divided otherwise while the PLL is on");
    }
    if ((before & ~value & PLLE) != 0 && (chip->data[USBCON] & (USBE | FRZCLK)) == USBE) {
        judge_finds("the PLL stops before FRZCLK is set");
    }
    pass_on(&old_pllcsr, address, value);
}

static void write_pllfrq(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if ((chip->data[PLLCSR] & PLLE) != 0) {
        judge_finds("PLLFRQ is written while the PLL is on");
    }
    pass_on(&old_pllfrq, address, value);
}

static bool regulator_is_on(void)
{
    return is_162() ? (avr->data[REGCR] & REGDIS) == 0 : (avr->data[UHWCON] & UVREGE) != 0;
}

static void look_at_switch(bool was_on, bool is_on)
{
    if (was_on && !is_on) {
        off_since = avr->cycle;
    }
    if (is_on && !was_on && off_since != 0 && avr->cycle - off_since < GONE_US * (avr->frequency / 1000000)) {
        judge_finds("the block is on again before the host has seen it go");
    }
    if (is_on && was_on && !is_ours) {
        judge_finds("the block goes on as a boot loader left it");
    }
    is_ours = is_on;
}

static void write_usbcon(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    look_at_switch((chip->data[address] & USBE) != 0, (value & USBE) != 0);
    if ((value & (USBE | FRZCLK)) == USBE && (chip->data[PLLCSR] & PLOCK) == 0) {
        judge_finds("the block's clock is let go before PLOCK");
    }
    if ((value & USBE) != 0 && !regulator_is_on()) {
        judge_finds("the block is on before the pads' regulator");
    }
    pass_on(&old_usbcon, address, value);
}

static void look_at_attach(void)
{
    if (!regulator_is_on()) {
        judge_finds("attached before the pads' regulator is on");
    }
    if ((avr->data[USBCON] & (USBE | FRZCLK)) != USBE) {
        judge_finds("attached while the block is off or its clock frozen");
    }
    if (!is_162() && (avr->data[USBCON] & OTGPADE) == 0) {
        judge_finds("attached without the VBUS pad");
    }
    judge_chip_at_attach();
    judge_clock_at_attach();
}

static void write_udcon(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)param;
    if ((chip->data[address] & ~value & DETACH) != 0) {
        look_at_attach();
    }
    pass_on(&old_udcon, address, value);
}

static void write_udaddr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t risen = value & (uint8_t)~chip->data[address];

    (void)param;
    if ((risen & ADDEN) != 0 && ((value ^ chip->data[address]) & ~ADDEN) != 0) {
        judge_finds("UDADDR: ADDEN comes with the address, not after it");
    }
    if ((risen & ADDEN) != 0 && control_gives()) {
        judge_finds("UDADDR: the host has not taken the status packet yet");
    }
    pass_on(&old_udaddr, address, value);
}

void judge_block_start(void)
{
    is_ours = false;
    off_since = 0;
}

void judge_block_open(void)
{
    old_pllcsr = wrap(PLLCSR, write_pllcsr, NULL);
    old_pllfrq = wrap(PLLFRQ, write_pllfrq, NULL);
    old_usbcon = wrap(USBCON, write_usbcon, NULL);
    old_udcon = wrap(UDCON, write_udcon, NULL);
    old_udaddr = wrap(UDADDR, write_udaddr, NULL);
}
