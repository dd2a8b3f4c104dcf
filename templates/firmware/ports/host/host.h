/*
 * The other side of port.h: a matrix to press keys on, a clock to move on, and a USB host's packets;
 * all in memory, so that tests can run the engine and the usb folder on a computer.
 */
#ifndef HOST_H
#define HOST_H

#include <stdbool.h>
#include <stdint.h>

/* What host_take_in() and host_take_packet() return where there is no packet. */
enum { HOST_NAK = -1, HOST_STALL = -2 };

/* The world as at power-on: all keys open, time 0, no packets. The keyboard's own state is cleared
 * by loop_start() or keyboard_start(). */
void host_reset(void);

/* How often port.h was used against its own words. */
unsigned host_faults(void);

/* --- matrix and time ----------------------------------------------------------------------- */

void host_close(uint8_t drive, uint8_t sense, bool closed);
void host_advance_ms(uint16_t ms);

/* Something holds a line high, as the supply does; and how often port_pull() has looked at it. */
void host_hold(uint8_t line, bool held);
unsigned host_looks(uint8_t line);

/* What port_rise_us() finds; and let time pass for port_ticks(), and frames begin. */
void host_rise(uint8_t line, uint8_t microseconds);
void host_run(uint32_t microseconds, uint16_t frames);
/* So many readings of a driven line, after `before` others, show a sensed line low that is not. */
void host_spark(uint8_t drive, uint8_t sense, unsigned before, unsigned readings);

/* Which contacts of a knob are closed: A is bit 0, B is bit 1. */
void host_knob(uint8_t number, uint8_t contacts);

/* A byte that outlasts power, 0xFF for never kept; and put one there, as another image has left it. */
uint8_t host_kept(uint8_t place);
void host_keep(uint8_t place, uint8_t value);

/* The lights that are lit, bit n for light n. */
unsigned host_lit(void);

/* How often the boot loader was asked for. A computer has none, so the keyboard goes on. */
unsigned host_boot_loads(void);

/* --- the bus ------------------------------------------------------------------------------- */

void host_bus(uint8_t events); /* any of PORT_USB_RESET, _SUSPEND and _RESUME */
bool host_attached(void);
bool host_started(void); /* the chip, and its watchdog */
bool host_watched(void);
uint8_t host_address(void);
unsigned host_naps(void);
unsigned host_wakes(void);
unsigned host_feeds(void);

/* --- packets ------------------------------------------------------------------------------- */

void host_send_setup(const uint8_t packet[8]);
bool host_send_out(const uint8_t *bytes, uint8_t length); /* false: NAK, the last is not taken */
int host_take_in(uint8_t *bytes);                         /* length, HOST_NAK or HOST_STALL    */

int host_take_packet(uint8_t endpoint, uint8_t *bytes); /* the same from an interrupt endpoint */
int host_send_packet(uint8_t endpoint, const uint8_t *bytes, uint8_t length);
bool host_toggle(uint8_t endpoint);                     /* data toggle of the next packet      */

/* --- transport_rig.c: a transport without USB ---------------------------------------------------- */

void host_transport(bool open, bool boot_protocol);
void host_suspend(bool suspended);
void host_leds(uint8_t report); /* the output report */
int host_take_report(uint8_t *bytes); /* length, or HOST_NAK */
int host_take_media(uint8_t *bytes);  /* the same of media keys */

#endif
