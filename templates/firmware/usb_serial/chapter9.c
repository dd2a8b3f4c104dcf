/*
 * The standard requests, USB 2.0 section 9.4, for a serial port: one configuration, two interfaces, three
 * endpoints, and no waking of the host.
 *
 * A request that is not in this file, or not valid in the device's present state, is refused. It is not
 * the keyboard's file with other endpoints, since that one's machine code was to stay as it was.
 */
#include "chapter9.h"

#include "answer.h"
#include "descriptors.h"
#include "port.h"
#include "serial.h"
#include "state.h"

/* USB 2.0 tables 9-4 and 9-6. */
enum {
    GET_STATUS = 0,
    CLEAR_FEATURE = 1,
    SET_FEATURE = 3,
    SET_ADDRESS = 5,
    GET_DESCRIPTOR = 6,
    GET_CONFIGURATION = 8,
    SET_CONFIGURATION = 9,
    GET_INTERFACE = 10,
    SET_INTERFACE = 11
};
enum { ENDPOINT_HALT = 0 };
enum { ADDRESS_WAITS = 0x80 };

static uint8_t address; /* with ADDRESS_WAITS, until the status stage is over; else 0 */

void chapter9_reset(void)
{
    address = 0;
    device.configured = false;
    serial_configured(false);
}

static bool answer_status(uint8_t status)
{
    answer.packet[0] = status;
    answer.packet[1] = 0;
    return answer_packet(2);
}

/* Without a configuration there is no endpoint but the control one (USB 2.0 section 9.1.1.5). */
static bool set_configuration(uint8_t value)
{
    if (value > 1) {
        return false;
    }
    if (device.configured && value == 0) {
        serial_halt(0x80 | BULK_IN, true);
        serial_halt(0x80 | NOTICES_IN, true);
        serial_halt(BULK_OUT, true);
    }
    device.configured = value != 0;
    serial_configured(device.configured);
    return true;
}

static bool of_device(const struct request *request)
{
    switch (request->code) {
    case GET_STATUS: /* bus powered, and it wakes nobody */
        return answer_status(0);
    case GET_CONFIGURATION:
        return answer_byte(device.configured);
    case GET_DESCRIPTOR:
        return descriptors_answer(request);
    default:
        return false;
    }
}

static bool to_device(uint8_t code, uint8_t value)
{
    if (code == SET_CONFIGURATION) {
        return set_configuration(value);
    }
    if (code != SET_ADDRESS || value > 127 || device.configured) {
        return false;
    }
    address = value | ADDRESS_WAITS;
    return true;
}

static bool of_interface(uint8_t code)
{
    if (code == GET_STATUS) {
        return answer_status(0);
    }
    return code == GET_INTERFACE && answer_byte(0);
}

/* An interface exists once the device is configured, and only in its setting 0. */
static bool to_interface(const struct request *request)
{
    if (request->code != SET_INTERFACE || request->value != 0) {
        return false;
    }
    serial_fresh(request->index);
    return true;
}

static bool to_endpoint(const struct request *request, bool is_ours)
{
    bool sets = request->code == SET_FEATURE;

    if (request->value != ENDPOINT_HALT || (!sets && request->code != CLEAR_FEATURE)) {
        return false;
    }
    if (is_ours) {
        serial_halt(request->index, sets);
    }
    return is_ours || !sets;
}

/* The control endpoint is never halted: there is nothing to set, and clearing does no harm. */
static bool at_endpoint(const struct request *request)
{
    bool is_ours = serial_has(request->index);

    if (!is_ours && (request->index & 0x7F) != 0) {
        return false;
    }
    if (request->type == TO_ENDPOINT) {
        return to_endpoint(request, is_ours);
    }
    return request->code == GET_STATUS && answer_status(is_ours && serial_halted(request->index));
}

bool chapter9_request(const struct request *request)
{
    bool has_interface = device.configured && request->index <= DATA_INTERFACE;

    address = 0; /* a request that was not carried through to its end has no effect */
    if (request->type == OF_DEVICE) {
        return of_device(request);
    }
    if ((request->kind | request->index_high) != 0) {
        return false;
    }
    if (request->type < OF_DEVICE && (request->length | request->length_high) != 0) {
        return false; /* none of these brings data along */
    }
    switch (request->type) {
    case TO_DEVICE:
        return to_device(request->code, request->value);
    case OF_INTERFACE:
        return has_interface && of_interface(request->code);
    case TO_INTERFACE:
        return has_interface && to_interface(request);
    case OF_ENDPOINT:
    case TO_ENDPOINT:
        return at_endpoint(request);
    default:
        return false;
    }
}

void chapter9_done(void)
{
    if (address != 0) {
        port_usb_address(address & (uint8_t)~ADDRESS_WAITS);
        address = 0;
    }
}
