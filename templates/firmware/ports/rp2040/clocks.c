/*
 * Crystal, PLLs and clocks: datasheet sections 2.15 to 2.18.
 *
 * Only what a keyboard needs gets a clock: not the serial ports (clk_peri), the converter, the RTC.
 *
 * A crystal may not start, a PLL may not lock. Every wait here is one that the watchdog ends.
 */
#include "clocks.h"

#include "registers.h"

/*
 * The recommended crystal has its full swing after some 6 ms, and boards with others wait for 64 (the
 * chip maker's board headers). Too short a wait works right after loading and not after plugging in.
 */
enum { CRYSTAL_START_MS = 64 };

/* Section 2.18.2: VCO = 12 MHz * multiplier, 750 to 1,600 MHz; out = VCO / (first * second). */
struct rate {
    uint8_t multiplier;
    uint8_t first;
    uint8_t second;
};
static const struct rate core_rate = {125, 6, 2}; /* 1,500 MHz, 125 MHz */
static const struct rate usb_rate = {100, 5, 5};  /* 1,200 MHz,  48 MHz */

void blocks_reset(unsigned blocks)
{
    SET(RESETS_RESET) = blocks;
}

void blocks_release(unsigned blocks)
{
    CLEAR(RESETS_RESET) = blocks;
    while ((RESETS_DONE & blocks) != blocks) {
    }
}

/*
 * Both muxes change over without a glitch, and say when they have (section 2.15.3.2); their auxiliary
 * muxes do not, so those are only turned while nothing runs from them.
 */
static void reference_from(uint32_t source)
{
    CLK_REF_CTRL = source; /* the auxiliary one is PLL_USB */
    while (CLK_REF_SELECTED != 1u << source) {
    }
}

static void core_from_reference(void)
{
    CLEAR(CLK_SYS_CTRL) = CLK_SYS_AUX;
    while (CLK_SYS_SELECTED != 1u << 0) {
    }
}

/*
 * From one PLL to the other by way of the reference clock, which is 48 MHz meanwhile: with a slower core
 * than itself the USB controller loses flags (from the chip maker's engineers; the datasheet is silent).
 * The tick comes four times as fast for that moment: some microseconds that never were.
 */
static void core_from(uint32_t pll)
{
    reference_from(CLK_REF_AUX);
    core_from_reference();
    CLK_SYS_CTRL = pll;
    CLK_SYS_CTRL = pll | CLK_SYS_AUX;
    while (CLK_SYS_SELECTED != 1u << CLK_SYS_AUX) {
    }
    reference_from(CLK_REF_XOSC);
}

static void run_from_ring_oscillator(void)
{
    core_from_reference();
    reference_from(CLK_REF_ROSC);
}

static void start_crystal(void)
{
    XOSC_STARTUP = (CRYSTAL_START_MS * CRYSTAL_MHZ * 1000 + 255) / 256;
    XOSC_CTRL = XOSC_ON_1_TO_15_MHZ;
    while ((XOSC_STATUS & XOSC_STABLE) == 0) {
    }
}

/* Section 2.18.3: the VCO first, and once it has locked, the dividers behind it. */
static void start_pll(volatile struct pll *pll, struct rate rate)
{
    pll->cs = 1; /* the crystal undivided */
    pll->fbdiv_int = rate.multiplier;
    CLEAR(pll->pwr) = PLL_PWR_PD | PLL_PWR_VCOPD;
    while ((pll->cs & PLL_CS_LOCK) == 0) {
    }
    pll->prim = PLL_PRIM(rate.first, rate.second);
    CLEAR(pll->pwr) = PLL_PWR_POSTDIVPD;
}

void clocks_start(void)
{
    run_from_ring_oscillator();
    start_crystal();
    blocks_reset(RESET_PLL_SYS | RESET_PLL_USB);
    blocks_release(RESET_PLL_SYS | RESET_PLL_USB);
    start_pll(PLL_SYS, core_rate);
    start_pll(PLL_USB, usb_rate);

    core_from(CLK_SYS_PLL_SYS);
    CLK_USB_CTRL = CLK_USB_ENABLE;

    SLEEP_EN0 = 0; /* section 2.11.3: what has a clock while the core waits */
    SLEEP_EN1 = SLEEP_EN1_USB | SLEEP_EN1_WATCHDOG | SLEEP_EN1_TIMER;
}

void clocks_slow(void)
{
    core_from(CLK_SYS_PLL_USB);
    SET(PLL_SYS->pwr) = PLL_PWR_PD | PLL_PWR_VCOPD | PLL_PWR_POSTDIVPD;
}

void clocks_fast(void)
{
    start_pll(PLL_SYS, core_rate);
    core_from(CLK_SYS_PLL_SYS);
}
