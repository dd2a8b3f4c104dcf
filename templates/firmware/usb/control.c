/*
 * Control transfers, USB 2.0 section 8.5.3, one packet at a time.
 *
 * A SETUP packet ends whatever was under way. A transfer to the host ends where the host says so, by
 * its empty OUT packet, which may come before all data are sent.
 */
#include "control.h"

#include "answer.h"
#include "chapter9.h"
#include "class.h"
#include "descriptors.h"
#include "port.h"

enum stage {
    IDLE,
    DATA_IN,      /* packets to the host, until its status packet comes */
    DATA_OUT,     /* one packet of data from the host is to come        */
    STATUS_READY, /* our empty status packet is to be given             */
    STATUS_GIVEN  /* the host is to take it                             */
};

static uint8_t stage;
static answer_length asked; /* wLength; or the greatest value, since no answer is as long        */
static answer_length given; /* of that                                                            */
static bool more; /* packets to give; the last one is never full, unless it ends what was asked */

void control_reset(void)
{
    stage = IDLE;
}

static answer_length asked_by(const struct request *request)
{
    if (sizeof asked == 1 && request->length_high != 0) {
        return (answer_length)~(answer_length)0;
    }
    return (answer_length)((unsigned)request->length_high << 8 | request->length);
}

static void begin(const struct request *request)
{
    stage = IDLE;
    if (!chapter9_request(request) && !class_request(request)) {
        port_control_stall();
        return;
    }
    asked = asked_by(request);
    if (asked == 0) {
        stage = STATUS_READY; /* no data, so nothing but the status stage */
    } else if (request->type < OF_DEVICE) { /* the direction bit is clear */
        stage = DATA_OUT;
    } else {
        stage = DATA_IN;
        given = 0;
        more = true;
    }
}

static answer_length least(answer_length one, answer_length other)
{
    return one < other ? one : other;
}

/* Put the next of a constant's bytes into the packet; returns how many. */
static uint8_t next_of_constant(void)
{
    /*@ split answer.constant; */ /* for the proof: each by itself */
    struct constant whole = descriptors_get(answer.constant);
    answer_length end = least(whole.length, asked);
    uint8_t length = 0;

    while (length < CONTROL_PACKET && given < end) {
        answer.packet[length++] = whole.bytes[given++];
    }
    return length;
}

static void give_packet(void)
{
    bool is_made = answer.constant == IN_PACKET; /* then it is one packet, and here */
    uint8_t length; /* not in one expression: avr-gcc 5 warns of its own conversion there */

    if (is_made) {
        length = (uint8_t)least(answer.length, asked);
    } else {
        length = next_of_constant();
    }

    port_control_in(answer.packet, length);
    more = length == CONTROL_PACKET && given < asked; /* USB 2.0 section 8.5.3.2 */
}

static void data_in_step(void)
{
    uint8_t length;

    if (port_control_out(answer.packet, &length)) {
        stage = IDLE;
    } else if (more && port_control_in_free()) {
        give_packet();
    }
}

static void data_out_step(void)
{
    uint8_t length;

    if (port_control_out(answer.packet, &length)) {
        class_received(answer.packet, length);
        stage = STATUS_READY;
    }
}

static void status_step(void)
{
    if (!port_control_in_free()) {
        return;
    }
    if (stage == STATUS_READY) {
        port_control_in(answer.packet, 0);
        stage = STATUS_GIVEN;
    } else {
        stage = IDLE;
        chapter9_done();
    }
}

void control_step(void)
{
    struct request request;

    if (port_control_setup((uint8_t *)&request)) {
        begin(&request);
    }
    if (stage == DATA_IN) {
        data_in_step();
    } else if (stage == DATA_OUT) {
        data_out_step();
    } else if (stage != IDLE) {
        status_step();
    }
}
