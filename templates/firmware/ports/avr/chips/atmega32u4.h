/*
 * What is peculiar to the ATmega32U4; Atmel 7766.
 */
#ifndef CHIP_H
#define CHIP_H

/* Section "Interrupts": the numbers of the two that wake the chip. */
#define CHIP_VECTOR_USB_GENERAL 10
#define CHIP_VECTOR_WATCHDOG 12

#define CHIP_HAS_JTAG 1 /* until it is switched off, it holds PF4 to PF7 */

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
