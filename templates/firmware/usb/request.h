/*
 * Between the files of this folder: a request of the host, and the ways to answer it.
 */
#ifndef REQUEST_H
#define REQUEST_H

#include <stdbool.h>
#include <stdint.h>

#include "port_memory.h" /* FLASH */
#include "sizes.h"       /* CONTROL_PACKET */

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

enum { HID_INTERFACE = 0, HID_ENDPOINT = 1, HID_ENDPOINT_ADDRESS = 0x81 };

/* What the host has made of the device. device.c writes `suspended`, chapter9.c the others. */
struct device {
    bool configured;
    bool halted;    /* the interrupt endpoint is */
    bool may_wake;  /* the host, while suspended */
    bool suspended; /* and still so while it is being woken */
};

extern struct device device;

/* --- control.c: what a handler does with a request; each returns true, so that it can, too --- */

/* The bytes to answer with, where they are in RAM; never more than one packet. */
extern uint8_t control_packet[CONTROL_PACKET];

bool control_answer(uint8_t length); /* with what is in control_packet */
bool control_answer_byte(uint8_t value);
bool control_answer_flash(FLASH const uint8_t *bytes, uint8_t length);
bool control_accept(void);  /* no data: done */
bool control_receive(void); /* the host sends data: hid_received() follows, then it is done */

void control_reset(void);
void control_step(void);

/* --- chapter9.c ------------------------------------------------------------------------------ */

/* False: not a request that this device can do in its present state; it is answered by STALL. */
bool chapter9_request(const struct request *request);

/* The status stage of the last request without data to the host is over. */
void chapter9_done(void);

void chapter9_reset(void);

/* --- hid.c ----------------------------------------------------------------------------------- */

bool hid_request(const struct request *request);
void hid_received(const uint8_t *bytes, uint8_t length);

/* Protocol and idle time as after a bus reset (HID 1.11 sections 7.2.4 and 7.2.6). */
void hid_reset(void);
void hid_step(void);

/* --- descriptors.c --------------------------------------------------------------------------- */

/* Answer GET_DESCRIPTOR of the device or of the interface; false where there is none. */
bool descriptors_answer(const struct request *request);

#endif
