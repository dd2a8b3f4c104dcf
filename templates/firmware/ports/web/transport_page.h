/*
 * A transport that the page empties: somebody listens always, and never asks for the boot protocol.
 */
#ifndef TRANSPORT_PAGE_H
#define TRANSPORT_PAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* No report waits. */
void transport_page_start(void);

/* A report waits to be taken. */
bool transport_page_waits(void);

/* Copy a report to `bytes`, with room for ENDPOINT_PACKET; the length, or -1 where none waits. */
int32_t transport_page_take(uint8_t *bytes);
int32_t transport_page_take_media(uint8_t *bytes);

/* The output report. */
void transport_page_leds(uint8_t report);

#endif
