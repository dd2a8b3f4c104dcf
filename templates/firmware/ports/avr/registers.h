/*
 * The registers this port uses, with the names of the datasheets, at their addresses in data space:
 *
 *   Atmel 7766, ATmega16U4/32U4, section 31 "Register Summary"
 *   Atmel 7707, AT90USB82/162, section 28 "Register Summary"
 *   Atmel 7593, AT90USB646/647/1286/1287, section 32 "Register Summary"
 *
 * An address is the same on every chip that has the register; chip.h says which chip has those that
 * not all have. The tests compare every line with the headers of avr-libc.
 */
#ifndef REGISTERS_H
#define REGISTERS_H

#include <stdint.h>

#define REGISTER(address) (*(volatile uint8_t *)(address))

/* An in/out instruction's or sbi/cbi's address is 0x20 lower. */
#define IN_OUT(address) ((address) - 0x20)

/* --- ports --------------------------------------------------------------------------------- */

#define PINA REGISTER(0x20)
#define DDRA_ADDRESS 0x21
#define DDRA REGISTER(DDRA_ADDRESS)
#define PORTA REGISTER(0x22)
#define PINB REGISTER(0x23)
#define DDRB_ADDRESS 0x24
#define DDRB REGISTER(DDRB_ADDRESS)
#define PORTB REGISTER(0x25)
#define PINC REGISTER(0x26)
#define DDRC_ADDRESS 0x27
#define DDRC REGISTER(DDRC_ADDRESS)
#define PORTC REGISTER(0x28)
#define PIND REGISTER(0x29)
#define DDRD_ADDRESS 0x2A
#define DDRD REGISTER(DDRD_ADDRESS)
#define PORTD REGISTER(0x2B)
#define PINE REGISTER(0x2C)
#define DDRE_ADDRESS 0x2D
#define DDRE REGISTER(DDRE_ADDRESS)
#define PORTE REGISTER(0x2E)
#define PINF REGISTER(0x2F)
#define DDRF_ADDRESS 0x30
#define DDRF REGISTER(DDRF_ADDRESS)
#define PORTF REGISTER(0x31)

/* --- EEPROM -------------------------------------------------------------------------------- */

#define EECR_ADDRESS 0x3F
#define EECR REGISTER(EECR_ADDRESS)
#define EEMPE 2
#define EEPE 1
#define EERE 0

#define EEDR REGISTER(0x40)
#define EEARL REGISTER(0x41)
#define EEARH REGISTER(0x42)

/* --- clocks, reset, sleep, watchdog -------------------------------------------------------- */

#define PLLCSR REGISTER(0x49)
#define PLLE 1
#define PLOCK 0

#define ACSR REGISTER(0x50)
#define ACD 7

#define PLLFRQ REGISTER(0x52)

#define SMCR_ADDRESS 0x53
#define SMCR REGISTER(SMCR_ADDRESS)
#define SM1 2
#define SE 0

#define MCUSR_ADDRESS 0x54
#define MCUCR_ADDRESS 0x55
#define JTD 7
#define IVCE 0

#define SPMCSR_ADDRESS 0x57
#define SIGRD 5
#define BLBSET 3
#define SPMEN 0

#define SPL_ADDRESS 0x5D
#define SPH_ADDRESS 0x5E
#define SREG_ADDRESS 0x5F

#define WDTCSR_ADDRESS 0x60
#define WDTCSR REGISTER(WDTCSR_ADDRESS)
#define WDIF 7
#define WDIE 6
#define WDCE 4
#define WDE 3
#define WDP2 2

#define CLKPR_ADDRESS 0x61
#define CLKPCE 7

#define EXSUT1 5
#define RCE 3
#define EXTE 2
#define CLKS 0
#define EXTON 0

#define PRR0_ADDRESS 0x64
#define PRR1_ADDRESS 0x65

/* --- parts that the keyboard leaves alone; leavings.c switches them off --------------------- */

#define EIMSK_ADDRESS 0x3D
#define EECR_ADDRESS 0x3F
#define TCCR0A_ADDRESS 0x44
#define SPCR_ADDRESS 0x4C
#define PCICR_ADDRESS 0x68
#define TIMSK0_ADDRESS 0x6E
#define TIMSK1_ADDRESS 0x6F
#define TIMSK2_ADDRESS 0x70
#define TIMSK3_ADDRESS 0x71
#define TIMSK4_ADDRESS 0x72
#define ADCSRA_ADDRESS 0x7A
#define DIDR2_ADDRESS 0x7D
#define DIDR0_ADDRESS 0x7E
#define DIDR1_ADDRESS 0x7F
#define TCCR3A_ADDRESS 0x90
#define TCCR2A_ADDRESS 0xB0
#define TWCR_ADDRESS 0xBC
#define TCCR4A_ADDRESS 0xC0
#define TCCR4C_ADDRESS 0xC2
#define UCSR1B_ADDRESS 0xC9
#define UCSR1D_ADDRESS 0xCB

/* --- timer 1 ------------------------------------------------------------------------------- */

#define TCCR1A REGISTER(0x80)
#define TCCR1B REGISTER(0x81)
#define CS11 1
#define CS10 0
#define TCNT1L REGISTER(0x84)
#define TCNT1H REGISTER(0x85)

/* --- USB ----------------------------------------------------------------------------------- */

#define REGCR REGISTER(0x63)
#define UHWCON REGISTER(0xD7)

#define USBCON REGISTER(0xD8)
#define USBE 7
#define FRZCLK 5

#define UDCON REGISTER(0xE0)
#define RMWKUP 1
#define DETACH 0

#define UDINT REGISTER(0xE1)
#define EORSMI 5
#define WAKEUPI 4
#define EORSTI 3
#define SOFI 2
#define SUSPI 0

#define UDIEN REGISTER(0xE2)
#define WAKEUPE 4

#define UDADDR REGISTER(0xE3)
#define ADDEN 7

#define UDFNUML REGISTER(0xE4)
#define UDFNUMH REGISTER(0xE5)

#define UEINTX REGISTER(0xE8)
#define FIFOCON 7
#define RXSTPI 3
#define RXOUTI 2
#define KILLBK RXOUTI /* what the same bit is of an IN endpoint */
#define TXINI 0

#define UENUM REGISTER(0xE9)
#define UERST REGISTER(0xEA)

#define UECONX REGISTER(0xEB)
#define STALLRQ 5
#define STALLRQC 4
#define RSTDT 3
#define EPEN 0

#define UECFG0X REGISTER(0xEC)
#define EPDIR 0
#define UECFG1X REGISTER(0xED)
#define ALLOC 1

#define UESTA0X REGISTER(0xEE)
#define CFGOK 7

#define UEDATX_ADDRESS 0xF1
#define UEDATX REGISTER(UEDATX_ADDRESS)
#define UEBCLX REGISTER(0xF2)

#endif
