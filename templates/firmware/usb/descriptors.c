/*
 * What the device says of itself: USB 2.0 section 9.6, HID 1.11 sections 6.2 and 7.1.
 */
#include "descriptors.h"

#include "answer.h"
#include "interfaces.h"
#include "standard.h"
#include "tables.h"

enum { HID = 0x21, REPORT = 0x22 }; /* HID 1.11 section 7.1 */

/*
 * The any-number report: 8 modifiers, then the other 7 bytes of a boot report, which are nothing to a
 * host that reads this, then one bit for each usage from 0x00 to 0xDF. The counts and maxima below are
 * unsigned items; 224 still gets two bytes, since some read one byte as -32.
 */
static FLASH const uint8_t report_descriptor[] = {
    0x05, 0x01, /* usage page: generic desktop                  */
    0x09, 0x06, /* usage: keyboard                              */
    0xA1, 0x01, /* collection: application                      */
    0x05, 0x07, /*   usage page: keyboard                       */
    0x15, 0x00, /*   logical minimum 0                          */
    0x25, 0x01, /*   logical maximum 1                          */
    0x75, 0x01, /*   report size 1                              */
    0x19, 0xE0, /*   usage minimum: left control                */
    0x29, 0xE7, /*   usage maximum: right GUI                   */
    0x95, 0x08, /*   report count 8                             */
    0x81, 0x02, /*   input: data, variable, absolute            */
    0x95, 0x38, /*   report count 56                            */
    0x81, 0x01, /*   input: constant                            */
    0x19, 0x00, /*   usage minimum 0x00                         */
    0x29, 0xDF, /*   usage maximum 0xDF                         */
    0x96, 0xE0, 0x00, /* report count 224                       */
    0x81, 0x02, /*   input: data, variable, absolute            */
    0x05, 0x08, /*   usage page: LEDs                           */
    0x19, 0x01, /*   usage minimum: num lock                    */
    0x29, 0x05, /*   usage maximum: kana                        */
    0x95, 0x05, /*   report count 5                             */
    0x91, 0x02, /*   output: data, variable, absolute           */
    0x95, 0x03, /*   report count 3                             */
    0x91, 0x01, /*   output: constant                           */
    0xC0        /* end of collection                            */
};

#define HID_DESCRIPTOR                                                                             \
    9, HID, 0x11, 0x01, /* HID 1.11 */                                                             \
        0,              /* hardware of no particular country */                                    \
        1, REPORT, LOW(sizeof report_descriptor), HIGH(sizeof report_descriptor)

static FLASH const uint8_t hid_descriptor[] = {HID_DESCRIPTOR};

#if HAS_SECOND_INTERFACE
#define MEDIA_HID_DESCRIPTOR                                                                       \
    9, HID, 0x11, 0x01, 0, 1, REPORT, LOW(MEDIA_DESCRIPTOR_BYTES), HIGH(MEDIA_DESCRIPTOR_BYTES)

static FLASH const uint8_t media_hid_descriptor[] = {MEDIA_HID_DESCRIPTOR};
#endif

enum { INTERFACE_BYTES = 9 + 9 + 7 };
enum { INTERFACES = LAST_INTERFACE + 1, ALL_BYTES = 9 + INTERFACES * INTERFACE_BYTES };

/* Setting 0, one endpoint, class HID, no string; polled each millisecond. */
#define INTERFACE_OF(number, boot, protocol, hid_descriptor, endpoint, packet)                     \
    9, INTERFACE, number, 0, 1, 3, boot, protocol, 0,                                              \
    hid_descriptor,                                                                                \
    7, ENDPOINT, endpoint, 3 /* interrupt */, LOW(packet), HIGH(packet), 1

/* A boot interface, and a keyboard. */
#define KEYBOARD_INTERFACE                                                                         \
    INTERFACE_OF(HID_INTERFACE, 1, 1, HID_DESCRIPTOR, HID_ENDPOINT_ADDRESS, ENDPOINT_PACKET)

#if HAS_SECOND_INTERFACE
#if HAS_POINTER
/*
 * Media keys and the pointer, whose reports have numbers here and share the endpoint: a chip may have few, and
 * few bytes for them. The keyboard's interface cannot have numbers, since a boot report has none.
 */
#endif
/* No boot interface: set-up screens have no use for it. */
#define MEDIA_KEYS_INTERFACE                                                                       \
    INTERFACE_OF(MEDIA_INTERFACE, 0, 0, MEDIA_HID_DESCRIPTOR, MEDIA_ENDPOINT_ADDRESS, MEDIA_PACKET)
#endif

/*
 * Number 1, without a string. Bit 7 of the attributes is reserved and set; bit 5: the device can wake the
 * host. Before the interfaces, 100 mA.
 */
static FLASH const uint8_t configuration[] = {
    9, CONFIGURATION, LOW(ALL_BYTES), HIGH(ALL_BYTES), INTERFACES, 1, 0, 0xA0, 50,
    KEYBOARD_INTERFACE,
#if HAS_SECOND_INTERFACE
    MEDIA_KEYS_INTERFACE,
#endif
};

_Static_assert(sizeof configuration == ALL_BYTES, "wTotalLength is wrong");

/* The interface says the class. */
static FLASH const uint8_t device_descriptor[] = {DEVICE_DESCRIPTOR(0, 0, 0)};

_Static_assert(sizeof device_descriptor == 18, "bLength is wrong");

static FLASH const uint8_t languages[] = {LANGUAGES_DESCRIPTOR};

enum {
    OF_THE_REPORTS = OF_THE_CLASS + 1,
#if HAS_SECOND_INTERFACE
    OF_THE_MEDIA_CLASS,
    OF_THE_MEDIA_REPORTS,
#endif
};

#if HAS_SECOND_INTERFACE
static struct constant media_constant(uint8_t number)
{
    if (number == OF_THE_MEDIA_CLASS) {
        return constant_of(media_hid_descriptor, sizeof media_hid_descriptor);
    }
    return constant_of(media_descriptor, MEDIA_DESCRIPTOR_BYTES);
}
#endif

/* No table, since one of addresses in flash is more than Clang can make for AVR. */
struct constant descriptors_get(uint8_t number)
{
#if HAS_SECOND_INTERFACE
    if (number >= OF_THE_MEDIA_CLASS) {
        return media_constant(number);
    }
#endif
    switch (number) {
    case MAKER:
        return constant_of(identity_maker, IDENTITY_MAKER_BYTES);
    case PRODUCT:
        return constant_of(identity_product, IDENTITY_PRODUCT_BYTES);
    case OF_THE_DEVICE:
        return constant_of(device_descriptor, sizeof device_descriptor);
    case OF_THE_CONFIGURATION:
        return constant_of(configuration, sizeof configuration);
    case OF_THE_CLASS:
        return constant_of(hid_descriptor, sizeof hid_descriptor);
    case OF_THE_REPORTS:
        return constant_of(report_descriptor, sizeof report_descriptor);
    case LANGUAGES:
    default:
        return constant_of(languages, sizeof languages);
    }
}

/* HID 1.11 section 7.1.1. */
static bool answer_of_interface(const struct request *request)
{
#if HAS_SECOND_INTERFACE
    bool is_media = request->index == MEDIA_INTERFACE;
    if (request->kind == REPORT) {
        return answer_constant(is_media ? OF_THE_MEDIA_REPORTS : OF_THE_REPORTS);
    }
    return request->kind == HID && answer_constant(is_media ? OF_THE_MEDIA_CLASS : OF_THE_CLASS);
#else
    if (request->kind == REPORT) {
        return answer_constant(OF_THE_REPORTS);
    }
    return request->kind == HID && answer_constant(OF_THE_CLASS);
#endif
}

bool descriptors_answer(const struct request *request)
{
    uint8_t kind = request->kind;
    uint8_t number = request->value;

    if (request->type == OF_DEVICE && kind == STRING) {
        return number <= PRODUCT_STRING && answer_constant(number);
    }
    if (number != 0) {
        return false;
    }
    if (request->type == OF_DEVICE) {
        if (kind == DEVICE) {
            return answer_constant(OF_THE_DEVICE);
        }
        return kind == CONFIGURATION && answer_constant(OF_THE_CONFIGURATION);
    }
    return answer_of_interface(request);
}
