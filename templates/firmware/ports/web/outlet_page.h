/*
 * An outlet that the page empties: somebody listens always, and never asks for the boot protocol.
 */
#ifndef OUTLET_PAGE_H
#define OUTLET_PAGE_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* No report waits. */
void outlet_page_start(void);

/* A report waits to be taken. */
bool outlet_page_waits(void);

/* Copy a report to `bytes`, with room for ENDPOINT_PACKET; the length, or -1 where none waits. */
int32_t outlet_page_take(uint8_t *bytes);
int32_t outlet_page_take_media(uint8_t *bytes);

#endif
