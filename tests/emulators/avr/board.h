/*
 * What the parts of the harness share. The tests load them as one shared library; one board a process.
 *
 *   board.c     the chip, its switches, time, measuring
 *   cable.c     the host's end of the USB cable, and what simavr's USB block lacks
 *   control.c   control endpoint 0
 *   receive.c   endpoint 3, with which a serial port receives
 *   leavings.c  what a boot loader left in the chip's registers, and what the chip makes of it
 *   eeprom.c    how long a write of the EEPROM takes
 *   fuses.c     fuses, lock bits and signature, as the program reads them
 *   delays.c    delay loops, jumped over
 *   idle.c      turns of the main loop in which nothing can happen, jumped over
 *   watch.c     for how long a port is not read
 *   waking.c    what waking from a nap costs
 *   judge*.c    mistakes that a chip would not forgive, told in words
 */
#ifndef BOARD_H
#define BOARD_H

#include <stdbool.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include <simavr/avr_eeprom.h>
#include <simavr/avr_ioport.h>
#include <simavr/avr_usb.h>
#include <simavr/avr_watchdog.h>
#include <simavr/sim_avr.h>
#include <simavr/sim_core_decl.h>

enum { PORT_A, PORT_B, PORT_C, PORT_D, PORT_E, PORT_F, PORTS };

/* Addresses in data space; the same on both chips. */
enum {
    PIN_A = 0x20, /* then DDRA and PORTA, then port B's three */
    PLLCSR = 0x49,
    UDCON = 0xE0,
    UDINT = 0xE1,
    USBCON = 0xD8
};

/* Cycles in which a program that is about to sleep does: simavr forgets an interrupt that waits then. */
enum { NAP_BEGINS = 8 };

struct wrapped {
    avr_io_write_t write;
    void *param;
};

extern avr_t *avr;
extern bool pins_moved; /* what the pins read is to be worked out anew */

/* Put a function between the program's writes of a register and what simavr does at them. */
struct wrapped wrap(uint16_t address, avr_io_write_t write, void *param);
void pass_on(const struct wrapped *to, avr_io_addr_t address, uint8_t value);

/* The same between what it reads and what simavr has there. */
struct reading {
    avr_io_read_t read;
    void *param;
};
struct reading wrap_read(uint16_t address, avr_io_read_t read);
uint8_t pass_on_read(const struct reading *to, avr_io_addr_t address);

/* Run for at most so many cycles, or a few more; false where the chip has stopped. */
bool run_some(uint64_t most);

bool is_162(void);
void cable_open(void);
void control_open(void);
void control_reset(void);
int control_in(uint8_t *bytes, uint32_t *count);
int control_out(const uint8_t *bytes, uint32_t count);
bool control_gives(void);
bool control_hears(void);
void receive_open(void);
void receive_reset(void);
int receive_out(const uint8_t *bytes, uint32_t count);
void eeprom_open(void);
void fuses_open(void);
void delays_open(uint32_t size);
void delays_restore(void);
void idle_open(void);
void idle_forget(void);
void idle_nap(void);
void idle_look(uint64_t end);
void leavings_open(uint32_t boot_start);
void leavings_take(uint8_t low[PORTS], uint8_t high[PORTS]);
void leavings_read(uint8_t levels[PORTS]);
void core_stood(uint64_t cycles);
void board_leave_nothing_out(void);
void watch_reads(int port);
void waking_open(void);
void waking_sleeps(void);
void judge_open(void);
void judge_nap(void);
void judge_bus_reset(void);
void judge_setup(const uint8_t *packet);
void judge_status_taken(void);
void judge_packet_passed(int number);

extern bool judge_is_away; /* for what the harness itself writes */

#endif
