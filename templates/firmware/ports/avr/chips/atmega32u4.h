/*
 * What is peculiar to the ATmega32U4; Atmel 7766.
 */
#ifndef CHIP_H
#define CHIP_H

/* Section "Interrupts": how many vectors there are, the reset's included. */
#define CHIP_VECTORS 43

/* Section "Register Summary": what leavings.c clears and not every chip has. */
#define CHIP_LEAVINGS \
    TIMSK3_ADDRESS, TIMSK4_ADDRESS, TCCR3A_ADDRESS, TCCR4A_ADDRESS, TCCR4C_ADDRESS, \
    TWCR_ADDRESS, ADCSRA_ADDRESS, DIDR0_ADDRESS, DIDR1_ADDRESS, DIDR2_ADDRESS, \
    UCSR1D_ADDRESS

#define CHIP_HAS_JTAG 1 /* until it is switched off, it holds PF4 to PF7 */

/* Section 6.8, the clock switch: other chips have none, or no type that starts without the crystal. */
#define CHIP_CLKSEL0 REGISTER(0xC5)
#define CHIP_CLKSEL1 REGISTER(0xC6)
#define CHIP_CLKSTA REGISTER(0xC7)

/* UHWCON, section 21: UVREGE, the pads' regulator is on */
#define CHIP_PADS_REGISTER UHWCON
#define CHIP_PADS_ON 0x01

/* OTGPADE: the VBUS pad is on */
#define CHIP_USBCON_PADS 0x10

/* PLLCSR for each crystal, without PLLE; PINDIV halves a 16 MHz clock (section 6.11) */
#define CHIP_PLL_16_MHZ 0x10
#define CHIP_PLL_8_MHZ 0x00

/* PLLFRQ: the PLL makes 48 MHz, undivided for USB (PDIV 0100) */
#define CHIP_PLLFRQ 0x04

#endif
