/*
 * The standard requests, USB 2.0 section 9.4, for a device with one configuration, whose interfaces have one
 * setting each.
 *
 * A request that is not in this file, or not valid in the device's present state, is refused.
 */
#include "chapter9.h"

#include "answer.h"
#include "descriptors.h"
#include "function.h"
#include "interfaces.h"
#include "port.h"
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
enum { ENDPOINT_HALT = 0, DEVICE_REMOTE_WAKEUP = 1 };
enum { STATUS_REMOTE_WAKEUP = 2 }; /* and, of an endpoint, 1 for halted */

enum { ADDRESS_WAITS = 0x80 };

static uint8_t address; /* with ADDRESS_WAITS, until the status stage is over; else 0 */

void chapter9_reset(void)
{
    address = 0;
    device.configured = false;
    function_reset();
}

/* --- requests ------------------------------------------------------------------------------ */

static bool answer_status(uint8_t status)
{
    answer.packet[0] = status;
    answer.packet[1] = 0;
    return answer_packet(2);
}

static bool set_configuration(uint8_t value)
{
    if (value > 1) {
        return false;
    }
    device.configured = value != 0;
    function_configured(device.configured);
    return true;
}

static bool of_device(const struct request *request)
{
    switch (request->code) {
    case GET_STATUS: /* bus powered, so bit 0 is clear */
        return answer_status(device.may_wake ? STATUS_REMOTE_WAKEUP : 0);
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
    switch (code) {
    case CLEAR_FEATURE:
    case SET_FEATURE:
        return value == DEVICE_REMOTE_WAKEUP && function_let_wake(code == SET_FEATURE);
    case SET_ADDRESS:
        if (value > 127 || device.configured) {
            return false;
        }
        address = value | ADDRESS_WAITS;
        return true;
    case SET_CONFIGURATION:
        return set_configuration(value);
    default:
        return false;
    }
}

static bool of_interface(const struct request *request)
{
    switch (request->code) {
    case GET_DESCRIPTOR: /* of the class; HID 1.11 section 7.1.1 */
        return descriptors_answer(request);
    case GET_STATUS:
        return device.configured && answer_status(0);
    case GET_INTERFACE:
        return device.configured && answer_byte(0);
    default:
        return false;
    }
}

/* An interface exists once the device is configured, and only in its setting 0. */
static bool to_interface(const struct request *request)
{
    if (request->code != SET_INTERFACE || request->value != 0 || !device.configured) {
        return false;
    }
    function_fresh(request->index);
    return true;
}

static bool to_endpoint(const struct request *request, bool is_ours)
{
    bool sets = request->code == SET_FEATURE;

    if (request->value != ENDPOINT_HALT || (!sets && request->code != CLEAR_FEATURE)) {
        return false;
    }
    if (is_ours) {
        function_halt(request->index, sets);
    }
    return is_ours || !sets;
}

/* The control endpoint is never halted: there is nothing to set, and clearing does no harm. */
static bool at_endpoint(const struct request *request)
{
    bool is_ours = device.configured && function_has(request->index);

    if (!is_ours && (request->index & 0x7F) != 0) {
        return false;
    }
    if (request->type == TO_ENDPOINT) {
        return to_endpoint(request, is_ours);
    }
    return request->code == GET_STATUS && answer_status(is_ours && function_halted(request->index));
}

bool chapter9_request(const struct request *request)
{
    address = 0; /* a request that was not carried through to its end has no effect */
    if (request->type == OF_DEVICE) {
        return of_device(request);
    }
    if ((request->type != OF_INTERFACE && request->kind != 0) || request->index_high != 0) {
        return false;
    }
    if (request->type < OF_DEVICE && (request->length | request->length_high) != 0) {
        return false; /* none of these brings data along */
    }
    switch (request->type) {
    case TO_DEVICE:
        return to_device(request->code, request->value);
    case OF_INTERFACE:
        return request->index <= LAST_INTERFACE && of_interface(request);
    case TO_INTERFACE:
        return request->index <= LAST_INTERFACE && to_interface(request);
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
