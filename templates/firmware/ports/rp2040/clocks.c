/*
 * Crystal, PLLs and clocks: datasheet sections 2.15 to 2.18.
 *
 * Only what a keyboard needs gets a clock: not the serial ports (clk_peri), the converter, the RTC.
 */
#include "clocks.h"

#include "registers.h"

/*
 * The datasheet asks for 1 ms (section 2.16.3); four times that, since boards take crystals that are
 * slower to start (common practice, no source).
 */
enum { CRYSTAL_START_MS = 4 };

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

/* Both muxes change over without a glitch, and say when they have (section 2.15.3.2). */
static void run_from_reference(void)
{
    CLEAR(CLK_SYS_CTRL) = CLK_SYS_AUX;
    while (CLK_SYS_SELECTED != 1u << 0) {
    }
}

static void run_from_pll(void)
{
    CLK_SYS_CTRL = 0; /* the auxiliary source, while it is not in use */
    CLK_SYS_CTRL = CLK_SYS_AUX;
    while (CLK_SYS_SELECTED != 1u << CLK_SYS_AUX) {
    }
}

static void run_from_ring_oscillator(void)
{
    run_from_reference();
    CLK_REF_CTRL = 0;
    while (CLK_REF_SELECTED != 1u << 0) {
    }
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

    CLK_REF_CTRL = CLK_REF_XOSC;
    while (CLK_REF_SELECTED != 1u << CLK_REF_XOSC) {
    }
    run_from_pll();
    CLK_USB_CTRL = CLK_USB_ENABLE;
}

void clocks_slow(void)
{
    run_from_reference();
    SET(PLL_SYS->pwr) = PLL_PWR_PD | PLL_PWR_VCOPD | PLL_PWR_POSTDIVPD;
}

void clocks_fast(void)
{
    start_pll(PLL_SYS, core_rate);
    run_from_pll();
}
