/*
 * Of the requests of HID 1.11 section 7.2, those that a device without a boot protocol must have, and idle
 * times as far as they are none: a report of media keys is never repeated.
 */
#include "media.h"

#include "answer.h"
#include "interfaces.h"
#include "media_report.h"
#include "pointer_report.h"
#include "port.h"
#include "state.h"
#include "transport.h"

#if HAS_SECOND_INTERFACE

enum { GET_REPORT = 1, GET_IDLE = 2, SET_IDLE = 10 };
enum { INPUT_REPORT = 1 };

/* A host that has not taken a report for so long does not ask: the keyboard goes on without it. */
enum { PATIENCE_MS = 50 };

_Static_assert(MEDIA_PACKET < CONTROL_PACKET, "GET_REPORT answers with one packet, not a full one");

static bool halted;
static bool waits;   /* the last report may still be in the endpoint */
static bool unheard; /* and has been there for too long              */
static uint16_t given_ms;

/* The endpoint loses what is in it. */
static void emptied(void)
{
#if HAS_MEDIA
    if (waits) {
        media_report_lost();
    }
#endif
#if HAS_POINTER
    if (waits) {
        pointer_lost();
    }
#endif
    waits = false;
    unheard = false;
}

void media_start(void)
{
    halted = false;
    waits = false;
    unheard = false;
}

void media_configured(bool configured)
{
    halted = false;
    emptied();
    if (configured) {
        port_endpoint_open(MEDIA_ENDPOINT);
    } else {
        port_endpoint_stall(MEDIA_ENDPOINT, true); /* the host has no endpoint there any more */
    }
}

void media_halt(bool wanted)
{
    halted = wanted;
    emptied();
    port_endpoint_stall(MEDIA_ENDPOINT, wanted);
}

bool media_halted(void)
{
    return halted;
}

/* --- requests ------------------------------------------------------------------------------ */

#if HAS_POINTER
/* What is down is told of, whenever it is asked for; what moves only goes through the endpoint. */
static uint8_t write_report(uint8_t number)
{
    if (number == POINTER_REPORT) {
        return pointer_write(answer.packet);
    }
#if HAS_MEDIA
    return media_report_write(number, answer.packet);
#else
    return 0;
#endif
}
#endif

static bool get(const struct request *request)
{
    if (request->code == GET_REPORT && request->kind == INPUT_REPORT) {
#if HAS_POINTER
        uint8_t length = write_report(request->value);
#else
        uint8_t length = media_report_write(request->value, answer.packet);
#endif
        return length != 0 && answer_packet(length);
    }
    return request->code == GET_IDLE && answer_byte(0);
}

bool media_request(const struct request *request)
{
    if (!device.configured || request->index_high != 0) {
        return false;
    }
    if (request->type == CLASS_OF_INTERFACE) {
        return get(request);
    }
    bool has_data = (request->length | request->length_high) != 0;
    return request->type == CLASS_TO_INTERFACE && request->code == SET_IDLE && request->kind == 0 &&
           !has_data;
}

/* --- the transport ---------------------------------------------------------------------------- */

bool transport_media_free(void)
{
    if (halted || (waits && !port_endpoint_free(MEDIA_ENDPOINT))) {
        return false;
    }
    waits = false;
    unheard = false;
    return true;
}

bool transport_media_waits(void)
{
    if (!waits || unheard || transport_media_free()) {
        return false;
    }
    unheard = (uint16_t)(port_milliseconds() - given_ms) >= PATIENCE_MS;
    return !unheard;
}

void transport_media_give(const uint8_t *report, uint8_t length)
{
    port_endpoint_give(MEDIA_ENDPOINT, report, length);
    given_ms = port_milliseconds();
    waits = true;
}

#endif
