/*
 * The reports of media keys, and when one is given: one for the consumer page, one for system controls,
 * as media_descriptor says. Each has its number and then a bit for each key of its kind. Both lie one
 * behind the other: key n of this keyboard is bit (n & 7) of byte n / 8 of the two.
 */
#ifndef MEDIA_REPORT_H
#define MEDIA_REPORT_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_MEDIA

enum { CONSUMER_REPORT = 1, SYSTEM_REPORT = 2 };

/* Nothing is down, and no host was told anything. */
void media_report_start(void);

/* Put down, or lift, media key `number`; to lift 0 is to lift none. */
void media_report_press(uint8_t number);
void media_report_lift(uint8_t number);

/* Write what is down of one kind into `out`; returns the length, 0 where there is no such report. */
uint8_t media_report_write(uint8_t kind, uint8_t *out);

/* Give a report of a kind that has changed since its last one, if that can be; true if so. */
bool media_report_give(void);

/* The host does not listen, and may forget what it was told. */
void media_report_resync(void);

/* The host may not have heard the last report, whatever that said. */
void media_report_lost(void);

#endif

#endif
