/*
 * The pointer and its wheels: what keys move, and the report of it. The report has a number on the second
 * interface, beside those of media keys, so that it needs no endpoint of its own: a chip may have few of
 * them. Its number is 4, since each number there is a bit of a set.
 *
 * Keys have numbers: 1 to 5 the buttons, 8 to 15 the ways, two for each axis, first the one that counts
 * down. The axes are X, Y, the wheel, and the wheel sideways.
 *
 * A report that only moves is given whenever there is room, and no key waits until it is taken. What is due
 * waits here, at most 127 steps an axis. Buttons are told of as other keys are, one change at a time.
 */
#ifndef POINTER_REPORT_H
#define POINTER_REPORT_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_POINTER

enum { POINTER_REPORT = 4, POINTER_AXES = 4, POINTER_BYTES = 2 + POINTER_AXES };
enum { POINTER_FIRST_WAY = 8 };

/* Nothing is down, and no host was told anything. */
void pointer_start(void);

/* Put down, or lift, key `number`; to lift 0 is to lift none. */
void pointer_press(uint8_t number);
void pointer_lift(uint8_t number);

#if HAS_IN_TURN
/* Lift every key, at once: of two opposite ways neither is left for a moment. */
void pointer_lift_all(void);
#endif

/* Move until now. At least every minute. */
void pointer_pass(uint16_t now_ms);

/* Write the buttons that are down into `out`, and no movement; returns the length. */
uint8_t pointer_write(uint8_t *out);

/* Give a report of the buttons if they have changed since the last one, if that can be; true if so. */
bool pointer_give(void);

/* Give a report of what has moved, if that can be and nothing is to be told first. */
void pointer_move(void);

#if HAS_MEDIA
/* A media key has gone down or up, and its report will tell of it. */
void pointer_changed(void);
#endif

/* A report of the second interface has told of what is down there. */
void pointer_told(void);

/* Whether the last report there only moved, and nothing has gone down or up there since. */
bool pointer_only_moves(void);

/* The host may not have heard the last report, whatever that said. */
void pointer_lost(void);

#endif

#endif
