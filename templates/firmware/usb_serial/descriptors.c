/*
 * What the device says of itself: USB 2.0 section 9.6, the interface association of its ECN, CDC 1.2
 * sections 5.2.3.1 and 5.2.3.2, PSTN 1.2 sections 5.3.1 and 5.3.2 (sections from memory).
 */
#include "descriptors.h"

#include "answer.h"
#include "interfaces.h"
#include "port.h"
#include "serial.h"
#include "standard.h"

/* The ECN of interface associations, CDC 1.2 tables 12 and 13. */
enum { ASSOCIATION = 0x0B, FUNCTIONAL = 0x24 };
enum { HEADER = 0, CALL_MANAGEMENT = 1, ABSTRACT_CONTROL = 2, UNION = 6 };
enum { COMMUNICATIONS = 2, ABSTRACT_CONTROL_MODEL = 2, DATA = 0x0A }; /* classes, and a subclass */
enum { BULK = 2, INTERRUPT = 3 };
enum { LINES_AND_BREAK = 0x06 }; /* the requests that it knows: line coding and state, break */

enum { ALL_BYTES = 9 + 8 + 9 + 5 + 5 + 4 + 5 + 7 + 9 + 7 + 7 };

/*
 * Number 1, without a string. Bit 7 of the attributes is reserved and set; the device wakes no host. At
 * the end, 100 mA. An endpoint ends with its interval in ms, which means nothing for bulk.
 */
static FLASH const uint8_t configuration[] = {
    9, CONFIGURATION, LOW(ALL_BYTES), HIGH(ALL_BYTES), 2, 1, 0, 0x80, 50,

    8, ASSOCIATION, CONTROL_INTERFACE, 2, COMMUNICATIONS, ABSTRACT_CONTROL_MODEL, 0, 0,
    9, INTERFACE, CONTROL_INTERFACE, 0, 1, COMMUNICATIONS, ABSTRACT_CONTROL_MODEL, 0, 0,
    5, FUNCTIONAL, HEADER, 0x20, 0x01, /* CDC 1.2 */
    5, FUNCTIONAL, CALL_MANAGEMENT, 0, DATA_INTERFACE,
    4, FUNCTIONAL, ABSTRACT_CONTROL, LINES_AND_BREAK,
    5, FUNCTIONAL, UNION, CONTROL_INTERFACE, DATA_INTERFACE,
    7, ENDPOINT, 0x80 | NOTICES_IN, INTERRUPT, LOW(MEDIA_PACKET), HIGH(MEDIA_PACKET), 16,

    9, INTERFACE, DATA_INTERFACE, 0, 2, DATA, 0, 0, 0,
    7, ENDPOINT, BULK_OUT, BULK, LOW(MEDIA_PACKET), HIGH(MEDIA_PACKET), 0,
    7, ENDPOINT, 0x80 | BULK_IN, BULK, LOW(ENDPOINT_PACKET), HIGH(ENDPOINT_PACKET), 0,
};

_Static_assert(sizeof configuration == ALL_BYTES, "wTotalLength is wrong");

/* An interface association says the class. */
static FLASH const uint8_t device_descriptor[] = {DEVICE_DESCRIPTOR(0xEF, 2, 1)};

_Static_assert(sizeof device_descriptor == 18, "bLength is wrong");

static FLASH const uint8_t languages[] = {LANGUAGES_DESCRIPTOR};

/* No table, since one of addresses in flash is more than Clang can make for AVR. */
struct constant descriptors_get(uint8_t number)
{
    switch (number) {
    case MAKER:
        return constant_of(identity_maker, IDENTITY_MAKER_BYTES);
    case PRODUCT:
        return constant_of(identity_product, IDENTITY_PRODUCT_BYTES);
    case OF_THE_DEVICE:
        return constant_of(device_descriptor, sizeof device_descriptor);
    case OF_THE_CONFIGURATION:
        return constant_of(configuration, sizeof configuration);
    case LANGUAGES:
    default:
        return constant_of(languages, sizeof languages);
    }
}

bool descriptors_answer(const struct request *request)
{
    if (request->type != OF_DEVICE) { /* an interface has none of its own */
        return false;
    }
    if (request->kind == STRING) {
        return request->value <= PRODUCT_STRING && answer_constant(request->value);
    }
    if (request->value != 0) {
        return false;
    }
    if (request->kind == DEVICE) {
        return answer_constant(OF_THE_DEVICE);
    }
    return request->kind == CONFIGURATION && answer_constant(OF_THE_CONFIGURATION);
}
