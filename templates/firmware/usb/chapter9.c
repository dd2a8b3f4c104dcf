/*
 * The standard requests, USB 2.0 section 9.4, for a device with one configuration and one interface.
 *
 * A request that is not in this file, or not valid in the device's present state, is refused.
 */
#include "port.h"
#include "request.h"

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
enum { STATUS_REMOTE_WAKEUP = 2, STATUS_HALTED = 1 };

static uint8_t address;  /* to be taken over once the status stage is over; 0 for none */
static bool configured;
static bool halted;
static bool wake_allowed;

void chapter9_reset(void)
{
    address = 0;
    configured = false;
    halted = false;
    wake_allowed = false;
}

bool chapter9_configured(void)
{
    return configured;
}

bool chapter9_halted(void)
{
    return halted;
}

bool chapter9_may_wake_host(void)
{
    return wake_allowed;
}

/* --- requests ------------------------------------------------------------------------------ */

static bool answer_status(uint8_t status)
{
    control_packet[0] = status;
    control_packet[1] = 0;
    return control_answer(2);
}

/* The endpoint as new: empty, not halted, toggle at DATA0 (USB 2.0 section 9.1.1.5). */
static bool accept_fresh_endpoint(void)
{
    halted = false;
    port_endpoint_open(HID_ENDPOINT);
    return control_accept();
}

static bool set_configuration(uint8_t value)
{
    if (value > 1) {
        return false;
    }
    configured = value == 1;
    hid_reset();
    if (configured) {
        return accept_fresh_endpoint();
    }
    port_endpoint_stall(HID_ENDPOINT, true); /* the host has no endpoint there any more */
    return control_accept();
}

static bool device_request(const struct request *request)
{
    switch (request->code) {
    case GET_STATUS: /* bus powered, so bit 0 is clear */
        return answer_status(wake_allowed ? STATUS_REMOTE_WAKEUP : 0);
    case GET_CONFIGURATION:
        return control_answer_byte(configured ? 1 : 0);
    case GET_DESCRIPTOR:
        return descriptors_answer(request);
    default:
        return false;
    }
}

static bool device_command(const struct request *request)
{
    switch (request->code) {
    case CLEAR_FEATURE:
    case SET_FEATURE:
        if (request->value != DEVICE_REMOTE_WAKEUP) {
            return false;
        }
        wake_allowed = request->code == SET_FEATURE;
        return control_accept();
    case SET_ADDRESS:
        if (request->value > 127 || configured) {
            return false;
        }
        address = (uint8_t)(request->value | 0x80);
        return control_accept();
    case SET_CONFIGURATION:
        return set_configuration((uint8_t)request->value);
    default:
        return false;
    }
}

/* Interface 0 exists once the device is configured, and only in its setting 0. */
static bool interface_request(const struct request *request)
{
    if (request->index != HID_INTERFACE) {
        return false;
    }
    if (request->type == OF_INTERFACE && request->code == GET_DESCRIPTOR) {
        return descriptors_answer(request); /* HID 1.11 section 7.1.1 */
    }
    if (!configured) {
        return false;
    }
    if (request->type == OF_INTERFACE && request->code == GET_STATUS) {
        return answer_status(0);
    }
    if (request->type == OF_INTERFACE && request->code == GET_INTERFACE) {
        return control_answer_byte(0);
    }
    if (request->type == TO_INTERFACE && request->code == SET_INTERFACE && request->value == 0) {
        return accept_fresh_endpoint();
    }
    return false;
}

static bool halt(bool wanted)
{
    halted = wanted;
    port_endpoint_stall(HID_ENDPOINT, wanted);
    return control_accept();
}

/* The control endpoint is never halted: there is nothing to set, and clearing does no harm. */
static bool endpoint_request(const struct request *request)
{
    bool is_control = (request->index & 0xFF7F) == 0;
    bool is_ours = configured && request->index == HID_ENDPOINT_ADDRESS;

    if (!is_control && !is_ours) {
        return false;
    }
    if (request->type == OF_ENDPOINT) {
        return request->code == GET_STATUS &&
               answer_status(is_ours && halted ? STATUS_HALTED : 0);
    }
    if (request->value != ENDPOINT_HALT) {
        return false;
    }
    if (request->code == CLEAR_FEATURE) {
        return is_ours ? halt(false) : control_accept();
    }
    return request->code == SET_FEATURE && is_ours && halt(true);
}

bool chapter9_request(const struct request *request)
{
    address = 0; /* a request that was not carried through to its end has no effect */
    switch (request->type) {
    case OF_DEVICE:
        return device_request(request);
    case TO_DEVICE:
        return device_command(request);
    case OF_INTERFACE:
    case TO_INTERFACE:
        return interface_request(request);
    case OF_ENDPOINT:
    case TO_ENDPOINT:
        return endpoint_request(request);
    default:
        return false;
    }
}

void chapter9_done(void)
{
    if (address != 0) {
        port_usb_address(address & 0x7F);
        address = 0;
    }
}
