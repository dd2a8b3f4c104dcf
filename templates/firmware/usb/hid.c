/*
 * The requests of the HID class, HID 1.11 section 7.2, and the transport for the engine's reports.
 */
#include "hid.h"

#include "answer.h"
#include "interfaces.h"
#include "media.h"
#include "port.h"
#include "report.h"
#include "state.h"
#include "transport.h"
#include "usb.h"

enum {
    GET_REPORT = 1,
    GET_IDLE = 2,
    GET_PROTOCOL = 3,
    SET_REPORT = 9,
    SET_IDLE = 10,
    SET_PROTOCOL = 11
};
enum { INPUT_REPORT = 1, OUTPUT_REPORT = 2 };
enum { LEDS = 0x1F };
enum { DEFAULT_IDLE = 500 / 4 }; /* of a keyboard; HID 1.11 section 7.2.4 */

_Static_assert(REPORT_BYTES < CONTROL_PACKET, "GET_REPORT answers with one packet, not a full one");
_Static_assert(REPORT_BYTES <= ENDPOINT_PACKET, "a report is one packet");

static bool boot_protocol;
static uint8_t idle; /* in 4 ms; 0 for never */
static uint8_t leds; /* bit 0 Num Lock, 1 Caps Lock, 2 Scroll Lock, 3 Compose, 4 Kana */
static uint8_t coming; /* which kind of report the host sends */
static uint16_t given_ms;
static bool waits; /* the last report may still be in the endpoint */
static bool lost;  /* it was, when the endpoint was emptied       */

static uint8_t current[REPORT_BYTES];

void hid_start(void)
{
    waits = false;
    lost = false;
    hid_reset();
}

void hid_reset(void)
{
    boot_protocol = false;
    idle = DEFAULT_IDLE;
    leds = 0;
    given_ms = port_milliseconds();
    hid_emptied();
}

void hid_emptied(void)
{
    if (waits) {
        lost = true;
    }
}

/* --- requests ------------------------------------------------------------------------------ */

static bool get_report(uint8_t kind)
{
    if (kind == INPUT_REPORT) {
        return answer_packet(report_write(boot_protocol, answer.packet));
    }
    return kind == OUTPUT_REPORT && answer_byte(leds);
}

/*
 * An input report from the host has no meaning for a keyboard; it is taken and forgotten. Of an output
 * report the first byte counts: hosts send it with padding, of 2 or 8 bytes (from memory).
 */
static bool set_report(const struct request *request)
{
    bool is_known = request->kind == OUTPUT_REPORT || request->kind == INPUT_REPORT;

    if (!is_known || request->length == 0 || request->length > CONTROL_PACKET ||
        request->length_high != 0) {
        return false;
    }
    coming = request->kind;
    return true;
}

void class_received(const uint8_t *bytes, uint8_t length)
{
    if (coming == OUTPUT_REPORT && length != 0) {
        leds = bytes[0] & LEDS;
    }
}

static bool get(const struct request *request)
{
    switch (request->code) {
    case GET_REPORT:
        return get_report(request->kind);
    case GET_IDLE:
        return answer_byte(idle);
    case GET_PROTOCOL:
        return answer_byte(!boot_protocol);
    default:
        return false;
    }
}

static bool set(const struct request *request)
{
    if (request->code == SET_REPORT) {
        return set_report(request);
    }
    if ((request->length | request->length_high) != 0) { /* the others come without data */
        return false;
    }
    switch (request->code) {
    case SET_IDLE:
        idle = request->kind; /* here the high byte of wValue is a duration */
        return true;
    case SET_PROTOCOL:
        if (request->kind != 0) {
            return false;
        }
        boot_protocol = request->value == 0;
        return true;
    default:
        return false;
    }
}

/*
 * The low byte of wValue is a protocol, or else a report number. Our reports have none, but some hosts
 * give one where they set something (from memory); who asks for a numbered report gets none.
 */
static bool is_number_fine(const struct request *request)
{
    if (request->code == SET_REPORT || request->code == SET_IDLE) {
        return true;
    }
    return request->value <= (request->code == SET_PROTOCOL ? 1 : 0);
}

bool class_request(const struct request *request)
{
#if HAS_SECOND_INTERFACE
    if (request->index == MEDIA_INTERFACE) {
        return media_request(request);
    }
#endif
    if (!device.configured || !is_number_fine(request) ||
        (request->index | request->index_high) != 0) {
        return false;
    }
    if (request->type == CLASS_OF_INTERFACE) {
        return get(request);
    }
    return request->type == CLASS_TO_INTERFACE && set(request);
}

/* --- the transport ---------------------------------------------------------------------------- */

bool transport_open(void)
{
    return device.configured && !device.suspended;
}

bool transport_free(void)
{
    if (device.halted || !port_endpoint_free(HID_ENDPOINT)) {
        return false;
    }
    waits = false;
    return true;
}

bool transport_boot_protocol(void)
{
    return boot_protocol;
}

#if HAS_IN_TURN || HAS_LOCK_LIGHTS
uint8_t transport_leds(void)
{
    return leds;
}
#endif

void transport_give(const uint8_t *report, uint8_t length)
{
    port_endpoint_give(HID_ENDPOINT, report, length);
    given_ms = port_milliseconds();
    waits = true;
    lost = false;
}

static bool idle_is_over(void)
{
    return idle != 0 && (uint16_t)(port_milliseconds() - given_ms) >= (uint16_t)(idle * 4u);
}

/*
 * Where nothing has changed for the idle time, the host hears the same again; and at once where it may
 * not have heard it, or it would go without a release for as long as nobody types.
 */
void hid_step(void)
{
    if (!lost && !idle_is_over()) {
        return;
    }
    if (transport_open() && transport_free()) {
        transport_give(current, report_write(boot_protocol, current));
    }
}
