/*
 * A request of the host. Who knows whom in this folder, from the bottom: request.h, state.h and answer.h
 * know nobody; descriptors, hid and chapter9 say what to answer; control does it; device has the bus.
 */
#ifndef REQUEST_H
#define REQUEST_H

#include <stdint.h>

/* USB 2.0 table 9-2: a SETUP packet, byte for byte as it comes. */
struct request {
    uint8_t type;
    uint8_t code;
    uint8_t value;
    uint8_t kind; /* the high byte of wValue: the kind of descriptor or report; else 0 */
    uint8_t index;
    uint8_t index_high;
    uint8_t length;
    uint8_t length_high;
};

_Static_assert(sizeof(struct request) == 8, "a SETUP packet has 8 bytes");

/* bmRequestType, whole: direction, kind and recipient in one number. */
enum request_type {
    TO_DEVICE = 0x00,
    TO_INTERFACE = 0x01,
    TO_ENDPOINT = 0x02,
    OF_DEVICE = 0x80,
    OF_INTERFACE = 0x81,
    OF_ENDPOINT = 0x82,
    CLASS_TO_INTERFACE = 0x21,
    CLASS_OF_INTERFACE = 0xA1
};

#endif
