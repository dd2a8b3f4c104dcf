/*
 * The one seam between this keyboard and a chip. A port is one folder that defines these functions
 * and port_memory.h; nothing outside that folder names a register.
 *
 * Everything is polled from one main loop. No function may wait for the host; those that wait for
 * the matrix say so. Nothing here is called from an interrupt.
 */
#ifndef PORT_H
#define PORT_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"
#if HAS_SELF_REPORT
#include "port_memory.h"
#endif

/* --- life and time ------------------------------------------------------------------------- */

/*
 * Clocks, pins as the matrix wants them, millisecond tick running; no watchdog from an earlier life. A
 * port whose clocks may fail to start runs its own from here, so that no wait is for ever. Called once.
 */
void port_start(void);

/* Milliseconds since port_start(), modulo 65,536. */
uint16_t port_milliseconds(void);

/* From here on, the chip resets unless port_watchdog_feed() is called at least every 250 ms. */
void port_watchdog_start(void);
void port_watchdog_feed(void);

#if HAS_WAY_TO_BOOT_LOADER
/*
 * Leave for the chip's own boot loader, which the host sees as another device: off the bus, watchdog
 * off, interrupts off. Does not return. Only called where the .keys file asks for it, and then at any
 * time after usb_start(), also while the bus sleeps. Where it asks for two presses of the reset button,
 * port_start() does the same at the second one.
 */
void port_boot_loader(void);
#endif

#if HAS_REMEMBERED_BASE
/* --- memory that outlasts power ------------------------------------------------------------ */

enum { PORT_KEPT_BYTES = 2 };

/*
 * A byte that was kept, 0xFF where none ever was. Called at start, where it may wait for a write; and keep
 * one, without waiting: false if the one before is still being written, then it is to be asked for again.
 * A cell bears a limited number of changes: keep what a person asks for, and no more often. Only called
 * where the .keys file asks for it, which `check` allows on chips whose port has them.
 */
uint8_t port_kept(uint8_t place);
bool port_keep(uint8_t place, uint8_t value);
#endif

/* --- the matrix ---------------------------------------------------------------------------- */

#if HAS_UNKNOWN_WIRING
/*
 * Nobody knows what is wired to the pins: look whether something holds driven line `drive` high, and only if
 * nothing does, pull it low, look at the sensed lines, and let it go. Bit n of `low` is set where sensed line
 * n read low. False where something holds it high, also if only at the end: then `low` means nothing. A look
 * may pull it too, for at most a microsecond. No line is ever driven high. Waits as port_read() does.
 */
bool port_pull(uint8_t drive, line_set *low);

/*
 * How many microseconds a line that was just low takes to rise by its pull-up: longer, or never, where a light
 * or a resistor hangs on it. Looks first, as port_pull() does.
 */
uint8_t port_rise_us(uint8_t drive);
enum { PORT_IS_HIGH = 0xFE, PORT_NEVER_RISES = 0xFF, PORT_RISE_MOST_US = 100 };
#else
/*
 * Pull driven line `drive` low, look at the sensed lines, and let it go; so many times. Bit n is set where
 * sensed line n read low each time, that is, where a key between the two is closed. Waits before each time
 * until the sensed lines are high again (`settle`), and then until a closed key can be seen.
 */
line_set port_read(uint8_t drive, uint8_t times);

/*
 * Read all driven lines once, in their order, up to the first that does not read as it is expected to.
 * Returns that line, and what it read in `reading`; DRIVE_LINES if there is none. This is what a keyboard
 * does for most of its life, so it is worth being made quick.
 */
uint8_t port_scan(line_set *reading);

/* What driven line `drive` is expected to read from now on. Called for each before the first scan. */
void port_expect(uint8_t drive, line_set closed);
#endif

#if HAS_LIGHTS
/* --- lights -------------------------------------------------------------------------------- */

/*
 * Light those of the set, bit n for light n, and turn off all others. Where its other leg is on ground a
 * light's pin is high while it is lit, else low. All are dark from port_start() on, and driven.
 */
void port_lights(light_set lit);
#endif

#if HAS_KNOBS
/* --- knobs --------------------------------------------------------------------------------- */

/*
 * Which contacts of knobs are closed to ground at this moment: bit 2n is A of knob n, and bit 2n + 1 is B. Their
 * pins have pull-ups from port_start() on.
 */
knob_set port_knobs(void);

#if HAS_LONG_SCAN
/*
 * The engine's: a scan takes longer than a contact of a knob may be left unread, so that port_scan() and
 * port_read() call it before each line.
 */
void knobs_look(void);
#endif
#endif

#if HAS_SELF_REPORT
/* --- what only the chip itself knows ------------------------------------------------------- */

enum { PORT_TICK_US = 4 };

/* Ticks of PORT_TICK_US microseconds, modulo 65,536, by the clock that the whole chip runs from. */
uint16_t port_ticks(void);

/* The number of the last start of frame, modulo 2,048 (USB 2.0 section 8.4.3). */
uint16_t port_frame(void);

/* A register, or some that belong together, as bytes; PORT_REGISTERS of port_memory.h says how many there are. */
struct port_register {
    FLASH const char *name;
    uint8_t length; /* in bytes */
    uint8_t bytes[4]; /* highest first, or in the order that the bench's page says */
};

void port_register(uint8_t number, struct port_register *found);
#endif

/* --- USB: the bus -------------------------------------------------------------------------- */

enum {
    PORT_USB_RESET = 1,   /* the bus was reset: address 0, only the control endpoint is open   */
    PORT_USB_SUSPEND = 2, /* the bus has been idle for 3 ms                                     */
    PORT_USB_RESUME = 4   /* the bus is alive again                                            */
};

/* Show the host a full-speed device. port_usb_events() follows. */
void port_usb_attach(void);

/* What has happened on the bus since the last call, each thing once. */
uint8_t port_usb_events(void);

/* Answer to `address` from now on. Called when the status stage of SET_ADDRESS is over. */
void port_usb_address(uint8_t address);

/* Bus suspended: save power until it wakes or about 20 ms have passed, whichever is first. */
void port_usb_nap(void);

/* Bus suspended: signal the host to resume (USB 2.0 section 7.1.7.7). */
void port_usb_wake_host(void);

/* --- USB: control endpoint 0, packets of CONTROL_PACKET bytes ------------------------------- */

/* A SETUP packet has come: copy its 8 bytes, forget whatever was under way, return true. */
bool port_control_setup(uint8_t packet[8]);

/* The host has taken the last IN packet (or there was none), so that the next may be given. */
bool port_control_in_free(void);

/* Give the next IN packet, 0 to CONTROL_PACKET bytes. Only after port_control_in_free(). */
void port_control_in(const uint8_t *bytes, uint8_t length);

/* An OUT packet has come: copy up to CONTROL_PACKET bytes, set `length`, return true. */
bool port_control_out(uint8_t *bytes, uint8_t *length);

/* Answer STALL until the next SETUP. */
void port_control_stall(void);

/* --- USB: the other endpoints ---------------------------------------------------------------- */

/* Endpoint 1 is interrupt IN, with packets of up to ENDPOINT_PACKET bytes. */
#if HAS_SECOND_INTERFACE
/* So is endpoint 2, with packets of up to MEDIA_PACKET. */
#endif
#if HAS_SERIAL_PORT
/* Here it is bulk IN; 2 is interrupt IN and 3 bulk OUT, with packets of up to MEDIA_PACKET. */
enum { BULK_IN = 1, NOTICES_IN = 2, BULK_OUT = 3 };
#endif

/* Open the endpoint, empty, with its data toggle at DATA0. One that receives takes a packet from now on. */
void port_endpoint_open(uint8_t number);

/*
 * The host has taken the last packet (or there was none), so that the next may be given. A packet that
 * a bus reset throws away has not been taken, until port_usb_events() has told of the reset.
 */
bool port_endpoint_free(uint8_t number);

/* Give the next packet. Only after port_endpoint_free(). */
void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length);

#if HAS_SERIAL_PORT
/*
 * A packet has come to endpoint BULK_OUT: copy up to MEDIA_PACKET bytes, set `length`, make room for the
 * next, return true.
 */
bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length);
#endif

/* Answer STALL, or stop doing so; stopping sets the data toggle to DATA0 and empties it. */
void port_endpoint_stall(uint8_t number, bool stalled);

#endif
