/*
 * Where the engine's reports go: the usb folder implements it.
 */
#ifndef TRANSPORT_H
#define TRANSPORT_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* A host listens: configured and not suspended. While false, reports are dropped as outdated. */
bool transport_open(void);

/* The last report has been taken, so that the next may be given. */
bool transport_free(void);

/* The host asked for the boot protocol (HID 1.11 section 7.2.6). */
bool transport_boot_protocol(void);

/* Give the next report. Only after transport_free(). */
void transport_give(const uint8_t *report, uint8_t length);

#if HAS_IN_TURN || HAS_LOCK_LIGHTS
/* The last output report (HID 1.11 appendix B.1): bit 1 is Caps Lock. */
uint8_t transport_leds(void);
#endif

#if HAS_SECOND_INTERFACE
#if HAS_POINTER
/* The pointer's reports go the way of media keys, whether there are any of those. */
#endif
/*
 * Media keys have a way of their own, which a host need not listen to. `waits`: the last of their reports
 * has not been taken, but still may be. `free`: the next may be given, since the last has been taken.
 */
bool transport_media_waits(void);
bool transport_media_free(void);

/* Give the next report of media keys. Only after transport_media_free(). */
void transport_media_give(const uint8_t *report, uint8_t length);
#endif

#endif
