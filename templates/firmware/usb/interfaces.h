/*
 * The numbers of the device's interfaces and endpoints.
 */
#ifndef INTERFACES_H
#define INTERFACES_H

#include "sizes.h"

enum { HID_INTERFACE = 0, HID_ENDPOINT = 1, HID_ENDPOINT_ADDRESS = 0x81 };

#if HAS_SECOND_INTERFACE
enum { MEDIA_INTERFACE = 1, MEDIA_ENDPOINT = 2, MEDIA_ENDPOINT_ADDRESS = 0x82 };
enum { LAST_INTERFACE = MEDIA_INTERFACE };
#else
enum { LAST_INTERFACE = HID_INTERFACE };
#endif

#endif
