/*
 * The standard descriptors and their numbers: USB 2.0 section 9.6.
 */
#ifndef STANDARD_H
#define STANDARD_H

#include <stdint.h>

#include "identity.h"
#include "sizes.h" /* CONTROL_PACKET */

/* USB 2.0 table 9-5. */
enum { DEVICE = 1, CONFIGURATION = 2, STRING = 3, INTERFACE = 4, ENDPOINT = 5 };
enum { MAKER_STRING = 1, PRODUCT_STRING = 2 }; /* 0 has the languages */

#define LOW(word) ((uint8_t)((word) & 0xFF))
#define HIGH(word) ((uint8_t)((word) >> 8))

/* USB 2.0, without a serial number, one configuration. */
#define DEVICE_DESCRIPTOR(class, subclass, protocol)                                               \
    18, DEVICE, 0x00, 0x02, class, subclass, protocol, CONTROL_PACKET,                             \
    LOW(identity_vendor_id), HIGH(identity_vendor_id),                                             \
    LOW(identity_product_id), HIGH(identity_product_id),                                           \
    LOW(identity_release), HIGH(identity_release),                                                 \
    MAKER_STRING, PRODUCT_STRING, 0, 1

#define LANGUAGES_DESCRIPTOR 4, STRING, 0x09, 0x04 /* English (United States) */

/* The numbers of the constants. The strings have those that the device descriptor gives them. */
enum {
    LANGUAGES = 0,
    MAKER = MAKER_STRING,
    PRODUCT = PRODUCT_STRING,
    OF_THE_DEVICE,
    OF_THE_CONFIGURATION,
    OF_THE_CLASS /* and whatever else a class has, after it */
};

#endif
