"""What a boot loader may leave in an AVR's registers when it jumps to the firmware.

Addresses in data space: Atmel 7766 section 31, 7707 section 28. Every board of the tests starts
with all of it; `leavings.c` says what the chip makes of it.
"""

from __future__ import annotations

ON_EVERY_CHIP = {
    "interrupts go to the boot section (MCUCR)": {0x55: 0x02},
    "pull-ups are off (MCUCR)": {0x55: 0x10},
    "the clocks of timers, USART, SPI off (PRR0, PRR1)": {0x64: 0x2C, 0x65: 0x01},
    "the USB block's clock off (PRR1)": {0x65: 0x80},
    "timer 0 drives PD0 and interrupts (TCCR0A, TIMSK0)": {0x44: 0x33, 0x6E: 0x07},
    "timer 1 interrupts (TIMSK1)": {0x6F: 0x03},
    "interrupts on, and one due (SREG, TIMSK1)": {0x5F: 0x80, 0x6F: 0x01},
    "timer 1 has PB5 and counts to 1023 (TCCR1A)": {0x80: 0x83},
    "a pin interrupts (EIMSK)": {0x3D: 0x01},
    "a port interrupts (PCICR)": {0x68: 0x01},
    "the USART sends and interrupts (UCSR1B)": {0xC9: 0x98},
    "the SPI is a slave and interrupts (SPCR)": {0x4C: 0xC0},
    "every reset there is, for a cause (MCUSR)": {0x54: 0x0F},
    "the watchdog on (WDTCSR)": {0x60: 0x08},
    "the clock divided by eight (CLKPR)": {0x61: 0x03},
    "the PLL on (PLLCSR)": {0x49: 0x02},
    "its device on the bus (USBCON, UDCON)": {0xD8: 0x80, 0xE0: 0x00},
    "its address and interrupts (UDIEN, UDADDR)": {0xE2: 0x08, 0xE3: 0x85},
    "the stack among the variables (SPL, SPH)": {0x5D: 0x80, 0x5E: 0x01},
    "the EEPROM and the flash interrupt (EECR, SPMCSR)": {0x3F: 0x08, 0x57: 0x80},
}

ON_LARGE_CHIPS = {
    "the clocks of two-wire bus and converter off (PRR0)": {0x64: 0x81},
    "timer 3 interrupts (TIMSK3)": {0x71: 0x01},
    "timer 4 interrupts (TIMSK4)": {0x72: 0x04},
    "the two-wire bus has its pins and interrupts (TWCR)": {0xBC: 0x05},
    "the converter interrupts (ADCSRA)": {0x7A: 0x88},
    "inputs are off (DIDR0)": {0x7E: 0xF3},
}

Leavings = dict[int, int]
"""The value of each register, by its address."""


def leavings_of(chip: str) -> dict[str, Leavings]:
    """Return what a boot loader of a chip may leave, thing by thing."""
    return ON_EVERY_CHIP | ({} if chip == "at90usb162" else ON_LARGE_CHIPS)


def all_leavings(chip: str) -> Leavings:
    """Return all of it at once."""
    whole: Leavings = {}
    for leavings in leavings_of(chip).values():
        for address, value in leavings.items():
            whole[address] = whole.get(address, 0) | value
    return whole
