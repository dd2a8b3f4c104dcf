/*
 * The two forms of the keyboard's input report, and when one is given.
 *
 * Boot (HID 1.11 appendix B.1): byte 0 has the modifiers, usage 0xE0 + n in bit n; byte 1 is zero; then
 * come up to six usages, or six times ErrorRollOver if there are more than six.
 * Any number of keys (report protocol): the same eight bytes, and after them bit (u & 7) of byte
 * 8 + u / 8 for usage u, from 0x00 to 0xDF. Set-up screens, boot menus and switches for several
 * computers read the first eight bytes as a boot report, and some never ask for the boot protocol.
 */
#ifndef REPORT_H
#define REPORT_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

enum { BOOT_REPORT_BYTES = 8, USAGE_BYTES = 28, REPORT_BYTES = BOOT_REPORT_BYTES + USAGE_BYTES };

/* Nothing is down, and no host was told anything. */
void report_start(void);

/* Put down, or lift, a usage (0x00 for none, up to 0xDF) and modifiers. */
void report_press(uint8_t usage, uint8_t modifiers);
void report_lift(uint8_t usage, uint8_t modifiers);

#if HAS_ONCE
/* These modifiers are down too, whatever keys hold, until it is said anew. */
void report_once(uint8_t modifiers);
#endif

#if HAS_WITH_MODIFIER
/* The modifiers that keys hold, those of `once` keys not among them. */
uint8_t report_modifiers_held(void);

/* Of all that are down the host is not told of these, until it is said anew. */
void report_hide(uint8_t modifiers);
#endif

#if HAS_IN_TURN
/* While something is typed in turn, modifiers that keys hold are up. */
void report_turn(bool runs);

/* One stroke of it goes down, and up. */
void report_stroke(uint8_t usage, uint8_t modifiers);
void report_stroke_up(void);
#endif

/* Write what is down into `out`; returns the length, BOOT_REPORT_BYTES or REPORT_BYTES. */
uint8_t report_write(bool boot, uint8_t *out);

/* Give a report if it differs from the last one given; true if so. Only after transport_free(). */
bool report_give(void);

/* The host does not listen, and may forget what it was told. Called before further changes. */
void report_resync(void);

#endif
