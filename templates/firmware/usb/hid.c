/*
 * The requests of the HID class, HID 1.11 section 7.2, and the outlet for the engine's reports.
 */
#include "outlet.h"
#include "port.h"
#include "report.h"
#include "request.h"
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

_Static_assert(REPORT_BYTES <= CONTROL_PACKET, "GET_REPORT answers with one packet");
_Static_assert(REPORT_BYTES <= ENDPOINT_PACKET, "a report is one packet");

static bool boot_protocol;
static uint8_t idle; /* in 4 ms; 0 for never */
static uint8_t leds;
static uint8_t coming; /* which kind of report the host sends */
static uint16_t given_ms;

static uint8_t current[REPORT_BYTES];

void hid_reset(void)
{
    boot_protocol = false;
    idle = DEFAULT_IDLE;
    leds = 0;
    given_ms = port_milliseconds();
}

uint8_t usb_leds(void)
{
    return leds;
}

/* --- requests ------------------------------------------------------------------------------ */

static bool get_report(uint8_t kind)
{
    if (kind == INPUT_REPORT) {
        return control_answer(report_write(boot_protocol, control_packet));
    }
    return kind == OUTPUT_REPORT && control_answer_byte(leds);
}

/* An input report from the host has no meaning for a keyboard; it is taken and forgotten. */
static bool set_report(uint8_t kind, uint16_t length)
{
    if (kind == OUTPUT_REPORT ? length != 1 : kind != INPUT_REPORT || length > CONTROL_PACKET) {
        return false;
    }
    coming = kind;
    return length == 0 ? control_accept() : control_receive();
}

void hid_received(const uint8_t *bytes, uint8_t length)
{
    if (coming == OUTPUT_REPORT && length != 0) {
        leds = bytes[0] & LEDS;
    }
}

static bool get(uint8_t code, uint8_t high)
{
    switch (code) {
    case GET_REPORT:
        return get_report(high);
    case GET_IDLE:
        return control_answer_byte(idle);
    case GET_PROTOCOL:
        return control_answer_byte(boot_protocol ? 0 : 1);
    default:
        return false;
    }
}

static bool set(uint8_t code, uint8_t high, uint8_t low, uint16_t length)
{
    if (code == SET_REPORT) {
        return set_report(high, length);
    }
    if (code == SET_IDLE) {
        idle = high;
    } else if (code == SET_PROTOCOL && low <= 1) {
        boot_protocol = low == 0;
    } else {
        return false;
    }
    return control_accept();
}

bool hid_request(const struct request *request)
{
    uint8_t high = (uint8_t)(request->value >> 8);
    uint8_t low = (uint8_t)request->value;

    if (!chapter9_configured() || request->index != HID_INTERFACE) {
        return false;
    }
    if (low != 0 && request->code != SET_PROTOCOL) {
        return false; /* a report number: our reports have none */
    }
    if (request->type == CLASS_OF_INTERFACE) {
        return get(request->code, high);
    }
    return request->type == CLASS_TO_INTERFACE && set(request->code, high, low, request->length);
}

/* --- the outlet ---------------------------------------------------------------------------- */

bool outlet_open(void)
{
    return device_listens();
}

bool outlet_free(void)
{
    return !chapter9_halted() && port_endpoint_free(HID_ENDPOINT);
}

bool outlet_boot_protocol(void)
{
    return boot_protocol;
}

void outlet_give(const uint8_t *report, uint8_t length)
{
    port_endpoint_give(HID_ENDPOINT, report, length);
    given_ms = port_milliseconds();
}

/* Where nothing has changed for the idle time, the host hears the same again. */
void hid_step(void)
{
    if (idle == 0 || (uint16_t)(port_milliseconds() - given_ms) < (uint16_t)(idle * 4u)) {
        return;
    }
    if (outlet_open() && outlet_free()) {
        outlet_give(current, report_write(boot_protocol, current));
    }
}
