/*
 * The engine in a page: what the page's script calls, and nothing else of ours is to be seen there.
 *
 * All numbers are 32 bits, since WebAssembly has no smaller ones. The script lets time pass in steps of a
 * millisecond: one web_step(), take the reports, web_advance(1). A report that is not taken is not lost;
 * the next one waits, as on a bus that nobody polls.
 */
#ifndef WEB_H
#define WEB_H

#include <stdint.h>

#include "sizes.h"

/* What web_take_report(), web_take_media() and web_waiting() return where there is none. */
enum { WEB_NONE = -1 };

/* --- power, time, switches ----------------------------------------------------------------- */

/* Plugged in: every key is up, and time begins. What is kept over a power cut is as it was. */
void web_start(void);

/* Let time pass; whoever does more than a millisecond at once sees less than the keyboard would. */
void web_advance(uint32_t milliseconds);

/* One whole scan, and what comes of it. */
void web_step(void);

/* The switch where driven line `drive` and sensed line `sense` cross. */
void web_close(uint32_t drive, uint32_t sense);
void web_open(uint32_t drive, uint32_t sense);

#if HAS_KNOBS
/* Which contacts of a knob are closed: A is bit 0, B is bit 1. */
void web_knob(uint32_t number, uint32_t contacts);
#endif

/* --- what leaves the keyboard -------------------------------------------------------------- */

/* Take the keyboard's report, or that of media keys: its length, or WEB_NONE. It is at web_bytes(). */
int32_t web_take_report(void);
int32_t web_take_media(void);
const uint8_t *web_bytes(void);

/* The lights that are lit, bit n for light n; they follow after a step. */
uint32_t web_lit(void);

/* The computer's output report: bit 1 is Caps Lock. */
void web_leds(uint32_t leds);

/* How often the boot loader was asked for. A page has none: whoever wants no more stops stepping. */
uint32_t web_boot_loads(void);

/* --- what is inside ------------------------------------------------------------------------ */

/* The layers that are on, bit n for layer n; the base layer, and what lies on it, apart. */
uint32_t web_layers(void);

/* The layer that lies on the base layer; 0 for none. */
uint32_t web_base(void);

/*
 * The keys whose presses nothing is done about yet, oldest first, from place 0: the first is one of which
 * it is not decided what it means, the others wait for that. Keys are numbered in plate order, from 0;
 * WEB_NONE ends them. After a step that gave a report there are none, until the next step.
 */
int32_t web_waiting(uint32_t place);

/* How often something was not as the tables say. */
uint32_t web_faults(void);

#endif
