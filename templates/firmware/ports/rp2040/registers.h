/*
 * The registers this port uses, with the names and addresses of the RP2040 datasheet; sections are of
 * its edition of 2024. Written from memory of it; the tests compare every line with the table of the
 * chip maker's headers, and run every access on an emulator that complains of any other.
 */
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint32_t *)(address))

/* Section 2.1.2: writing to these places sets or clears the bits that are written as 1. Not for SIO. */
#define SET(name) REGISTER((uintptr_t) & (name) + 0x2000u)
#define CLEAR(name) REGISTER((uintptr_t) & (name) + 0x3000u)

/* --- resets and power-on state machine: sections 2.14.3 and 2.13.5 --------------------------- */

#define RESETS_RESET REGISTER(0x4000C000u)
#define RESETS_DONE REGISTER(0x4000C008u)
#define RESET_IO_BANK0 (1u << 5)
#define RESET_PADS_BANK0 (1u << 8)
#define RESET_PLL_SYS (1u << 12)
#define RESET_PLL_USB (1u << 13)
#define RESET_TIMER (1u << 21)
#define RESET_USBCTRL (1u << 24)

#define PSM_WDSEL REGISTER(0x40010008u)
#define PSM_ALL 0x1FFFFu
#define PSM_ROSC (1u << 0)
#define PSM_XOSC (1u << 1)

/* Section 2.12.8; the names are of the chip maker's header vreg_and_chip_reset.h. */
#define CHIP_RESET REGISTER(0x40064008u)
#define CHIP_RESET_HAD_POR (1u << 8)  /* power-on, or brown-out */
#define CHIP_RESET_HAD_RUN (1u << 16) /* the RUN pin            */

/* Section 2.20.2 (SYSINFO): bits 31 to 28 are 1 for the revisions B0 and B1, 2 for B2. */
#define CHIP_ID REGISTER(0x40000000u)
#define CHIP_ID_REVISION(id) ((id) >> 28)
#define CHIP_REVISION_B2 2u

/* --- clocks: sections 2.15.7, 2.16.7 and 2.18.4 ----------------------------------------------- */

#define CLK_REF_CTRL REGISTER(0x40008030u)
#define CLK_REF_SELECTED REGISTER(0x40008038u)
#define CLK_REF_ROSC 0u
#define CLK_REF_AUX 1u /* and the auxiliary source 0 is PLL_USB */
#define CLK_REF_XOSC 2u
#define CLK_SYS_CTRL REGISTER(0x4000803Cu)
#define CLK_SYS_SELECTED REGISTER(0x40008044u)
#define CLK_SYS_AUX 1u
#define CLK_SYS_PLL_SYS (0u << 5)
#define CLK_SYS_PLL_USB (1u << 5)
#define CLK_USB_CTRL REGISTER(0x40008054u)
#define CLK_USB_ENABLE (1u << 11) /* and the auxiliary source 0 is PLL_USB */

/* Section 2.11.3: what stays on while both cores wait; a clock of each block is a bit. */
#define SLEEP_EN0 REGISTER(0x400080A8u)
#define SLEEP_EN1 REGISTER(0x400080ACu)
#define SLEEP_EN1_WATCHDOG (1u << 12)
#define SLEEP_EN1_USB (3u << 10) /* clk_usb and clk_sys */
#define SLEEP_EN1_TIMER (1u << 5)

#define XOSC_CTRL REGISTER(0x40024000u)
#define XOSC_ON_1_TO_15_MHZ 0xFABAA0u
#define XOSC_STATUS REGISTER(0x40024004u)
#define XOSC_STABLE (1u << 31)
#define XOSC_STARTUP REGISTER(0x4002400Cu) /* in 256 periods of the crystal */

/* Each PLL has these four words. */
struct pll {
    uint32_t cs;
    uint32_t pwr;
    uint32_t fbdiv_int;
    uint32_t prim;
};
#define PLL_SYS ((volatile struct pll *)0x40028000u)
#define PLL_USB ((volatile struct pll *)0x4002C000u)
#define PLL_CS_LOCK (1u << 31)
#define PLL_PWR_PD (1u << 0)
#define PLL_PWR_POSTDIVPD (1u << 3)
#define PLL_PWR_VCOPD (1u << 5)
#define PLL_PRIM(first, second) ((uint32_t)(first) << 16 | (uint32_t)(second) << 12)

/* --- watchdog and timer: sections 4.7.6 and 4.6.5 --------------------------------------------- */

#define WATCHDOG_CTRL REGISTER(0x40058000u)
#define WATCHDOG_ENABLE (1u << 30)
#define WATCHDOG_PAUSE_FOR_DEBUGGER (7u << 24)
#define WATCHDOG_LOAD REGISTER(0x40058004u)
#define WATCHDOG_REASON REGISTER(0x40058008u)
#define WATCHDOG_TICK REGISTER(0x4005802Cu)
#define WATCHDOG_TICK_ENABLE (1u << 9)

#define TIMER_ALARM0 REGISTER(0x40054010u)
#define TIMER_ARMED REGISTER(0x40054020u)
#define TIMER_TIMERAWL REGISTER(0x40054028u)
#define TIMER_INTR REGISTER(0x40054034u)
#define TIMER_INTE REGISTER(0x40054038u)
#define TIMER_ALARM_0 (1u << 0) /* in the last three and ARMED */

/* --- pins: sections 2.19.6.1, 2.19.6.3 and 2.3.1.7 -------------------------------------------- */

#define IO_BANK0_CTRL(pin) REGISTER(0x40014004u + 8u * (pin))
#define FUNCTION_SIO 5u
#define PADS_BANK0(pin) REGISTER(0x4001C004u + 4u * (pin))
#define PAD_SCHMITT (1u << 1)
#define PAD_PULL_DOWN (1u << 2)
#define PAD_PULL_UP (1u << 3)
#define PAD_DRIVE_4_MA (1u << 4)
#define PAD_INPUT (1u << 6)

#define SIO_GPIO_IN REGISTER(0xD0000004u)
#define SIO_GPIO_OUT REGISTER(0xD0000010u)
#define SIO_GPIO_OUT_SET REGISTER(0xD0000014u)
#define SIO_GPIO_OUT_CLR REGISTER(0xD0000018u)
#define SIO_GPIO_OE REGISTER(0xD0000020u)
#define SIO_GPIO_OE_SET REGISTER(0xD0000024u)
#define SIO_GPIO_OE_CLR REGISTER(0xD0000028u)

/* --- interrupts: sections 2.3.2 and 2.4.8 ----------------------------------------------------- */

#define NVIC_ISER REGISTER(0xE000E100u)
#define NVIC_ICER REGISTER(0xE000E180u)
#define NVIC_ICPR REGISTER(0xE000E280u)
#define TIMER_IRQ_0 (1u << 0)
#define USBCTRL_IRQ (1u << 5)

/* --- USB: sections 4.1.3 (the memory) and 4.1.4 ----------------------------------------------- */

#define USB_MEMORY 0x50100000u
#define USB_MEMORY_BYTES 4096u
#define USB_SETUP_PACKET ((volatile uint32_t *)USB_MEMORY)
#define USB_IN_CONTROL(number) REGISTER(USB_MEMORY + 8u * (number)) /* from endpoint 1 */
#define USB_OUT_CONTROL(number) REGISTER(USB_MEMORY + 8u * (number) + 4u)
#define USB_ENDPOINT_ENABLE (1u << 31)
#define USB_ENDPOINT_STATUS_PER_BUFFER (1u << 29)
#define USB_ENDPOINT_INTERRUPT (3u << 26)
#define USB_ENDPOINT_BULK (2u << 26)

#define USB_BUFFER_CONTROL(buffer) REGISTER(USB_MEMORY + 0x80u + 4u * (buffer))
#define USB_BUFFER_FULL (1u << 15)
#define USB_BUFFER_DATA1 (1u << 13)
#define USB_BUFFER_STALL (1u << 11)
#define USB_BUFFER_AVAILABLE (1u << 10)
#define USB_BUFFER_LENGTH 0x3FFu

#define USB_ADDR_ENDP REGISTER(0x50110000u)
#define USB_MAIN_CTRL REGISTER(0x50110040u)
#define USB_CONTROLLER_EN (1u << 0)
#define USB_SOF_RD REGISTER(0x50110048u)
#define USB_SOF_COUNT 0x7FFu
#define USB_SIE_CTRL REGISTER(0x5011004Cu)
#define USB_SIE_EP0_INT_1BUF (1u << 29)
#define USB_SIE_PULLUP_EN (1u << 16)
#define USB_SIE_RESUME (1u << 12)
#define USB_SIE_STATUS REGISTER(0x50110050u)
#define USB_STATUS_BUS_RESET (1u << 19)
#define USB_STATUS_SETUP_REC (1u << 17)
#define USB_STATUS_RESUME (1u << 11)
#define USB_STATUS_SUSPENDED (1u << 4)
#define USB_BUFF_STATUS REGISTER(0x50110058u)
#define USB_EP_ABORT REGISTER(0x50110060u)
#define USB_EP_ABORT_DONE REGISTER(0x50110064u)
#define USB_EP_STALL_ARM REGISTER(0x50110068u)
#define USB_STALL_EP0_BOTH 3u
#define USB_MUXING REGISTER(0x50110074u)
#define USB_MUXING_SOFTCON (1u << 3)
#define USB_MUXING_TO_PHY (1u << 0)
#define USB_PWR REGISTER(0x50110078u)
#define USB_PWR_VBUS_DETECT_OVERRIDE (1u << 3)
#define USB_PWR_VBUS_DETECT (1u << 2)
#define USB_INTE REGISTER(0x50110090u)
#define USB_INT_SOF (1u << 17)
#define USB_INT_SETUP (1u << 16)
#define USB_INT_RESUME (1u << 15)
#define USB_INT_BUS_RESET (1u << 12)

#endif
