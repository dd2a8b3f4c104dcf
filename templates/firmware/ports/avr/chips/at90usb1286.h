/*
 * What is peculiar to the AT90USB1286; Atmel 7593.
 */
#ifndef CHIP_H
#define CHIP_H

/* Section "Interrupts": how many vectors there are, the reset's included. */
#define CHIP_VECTORS 38

/* Section "Register Summary": what leavings.c clears and not every chip has. */
#define CHIP_LEAVINGS \
    TIMSK2_ADDRESS, TIMSK3_ADDRESS, TCCR2A_ADDRESS, TCCR3A_ADDRESS, TWCR_ADDRESS, \
    ADCSRA_ADDRESS, DIDR0_ADDRESS, DIDR1_ADDRESS

#define CHIP_HAS_JTAG 1 /* until it is switched off, it holds PF4 to PF7 */

/* UHWCON, section 21: UIMOD, a device; UVREGE, the pads' regulator is on */
#define CHIP_PADS_REGISTER UHWCON
#define CHIP_PADS_ON 0x81

/* OTGPADE: the VBUS pad is on */
#define CHIP_USBCON_PADS 0x10

/* PLLCSR for each crystal, without PLLE; PLLP 011 for 8 MHz, PLLP 101 for 16 MHz (section 6.11) */
#define CHIP_PLL_16_MHZ 0x14
#define CHIP_PLL_8_MHZ 0x0C

#endif
