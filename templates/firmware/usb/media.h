#if HAS_POINTER
/*
 * The second interface, for media keys and a pointer: its requests, and its endpoint.
 */
#else
/*
 * The second interface, which only a keyboard with media keys has: its requests, and its endpoint.
 */
#endif
#ifndef MEDIA_H
#define MEDIA_H

#include <stdbool.h>

#include "request.h"
#include "sizes.h"

#if HAS_SECOND_INTERFACE

/* No host was ever there. */
void media_start(void);

/* The host has configured the device, or set the interface anew; or it has taken the configuration back. */
void media_configured(bool configured);

/* False: not a request that the interface can do in its present state. */
bool media_request(const struct request *request);

/* Let the endpoint be halted, or no longer (USB 2.0 section 9.4.5). */
void media_halt(bool wanted);
bool media_halted(void);

#endif

#endif
