/*
 * The two forms of the keyboard's input report, and when one is given.
 *
 * Any number of keys (report protocol): byte 0 has the modifiers, usage 0xE0 + n in bit n; bit
 * (u & 7) of byte 1 + u / 8 is usage u, for u from 0x00 to 0xDF.
 * Boot (HID 1.11 appendix B.1): byte 0 the same, byte 1 zero, then up to six usages, or six times
 * ErrorRollOver if there are more than six.
 */
#ifndef REPORT_H
#define REPORT_H

#include <stdbool.h>
#include <stdint.h>

enum { REPORT_BYTES = 29, BOOT_REPORT_BYTES = 8 };

/* Nothing is down, and no host was told anything. */
void report_start(void);

/* Put down, or lift, a usage (0x00 for none, up to 0xDF) and modifiers. */
void report_press(uint8_t usage, uint8_t modifiers);
void report_lift(uint8_t usage, uint8_t modifiers);

/* Write what is down into `out`; returns the length, BOOT_REPORT_BYTES or REPORT_BYTES. */
uint8_t report_write(bool boot, uint8_t *out);

/* Give a report if it differs from the last one given; true if so. Only after outlet_free(). */
bool report_give(void);

/* The host does not listen, and may forget what it was told. Called before further changes. */
void report_doubt(void);

#endif
