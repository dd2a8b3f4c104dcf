/*
 * What is peculiar to the AT90USB162; Atmel 7707.
 */
#ifndef CHIP_H
#define CHIP_H

/* Section "Interrupts": how many vectors there are, the reset's included. */
#define CHIP_VECTORS 29

/* Section "Register Summary": what leavings.c clears and not every chip has. */
#define CHIP_LEAVINGS \
    UCSR1D_ADDRESS

#define CHIP_HAS_JTAG 0

#define CHIP_LACKS_MULTIPLIER 1 /* table "Instruction Set Summary": no MUL */

/* REGCR, section 20: REGDIS clear, the pads' regulator is on */
#define CHIP_PADS_REGISTER REGCR
#define CHIP_PADS_ON 0x00

/* there is no VBUS pad to switch on */
#define CHIP_USBCON_PADS 0x00

/* PLLCSR for each crystal, without PLLE; PLLP0 divides 16 MHz by two (section 6.11) */
#define CHIP_PLL_16_MHZ 0x04
#define CHIP_PLL_8_MHZ 0x00

#endif
