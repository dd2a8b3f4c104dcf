/*
 * Control transfers, USB 2.0 section 8.5.3, one packet at a time.
 *
 * A SETUP packet ends whatever was under way. A transfer to the host ends where the host says so, by
 * its empty OUT packet, which may come before all data are sent.
 */
#include "port.h"
#include "request.h"

enum stage {
    IDLE,
    DATA_IN,      /* packets to the host, until its status packet comes */
    DATA_OUT,     /* one packet of data from the host is to come        */
    STATUS_READY, /* our empty status packet is to be given             */
    STATUS_GIVEN  /* the host is to take it                             */
};

uint8_t control_packet[CONTROL_PACKET];

static uint8_t stage;
static uint8_t asked; /* wLength, less what was given; 255 stands for all from there on, since no
                         answer is as long */
static FLASH const uint8_t *source; /* the rest of the answer, unless it is in control_packet */
static bool in_flash;
static uint8_t left;
static bool more; /* packets to give; the last one is never full, unless it ends what was asked */

bool control_answer(uint8_t length)
{
    left = length < asked ? length : asked;
    more = true;
    stage = asked != 0 ? DATA_IN : STATUS_READY; /* nothing asked, nothing but the status stage */
    return true;
}

bool control_answer_byte(uint8_t value)
{
    control_packet[0] = value;
    return control_answer(1);
}

bool control_answer_flash(FLASH const uint8_t *bytes, uint8_t length)
{
    in_flash = true;
    source = bytes;
    return control_answer(length);
}

bool control_accept(void)
{
    stage = STATUS_READY;
    return true;
}

bool control_receive(void)
{
    stage = DATA_OUT;
    return true;
}

void control_reset(void)
{
    stage = IDLE;
}

static void begin(const struct request *request)
{
    stage = IDLE;
    in_flash = false;
    asked = request->length_high != 0 ? 255 : request->length;
    if (!chapter9_request(request) && !hid_request(request)) {
        port_control_stall();
    }
}

static void give_packet(void)
{
    uint8_t length = left < CONTROL_PACKET ? left : CONTROL_PACKET;

    if (in_flash) {
        for (uint8_t place = 0; place < length; place++) {
            control_packet[place] = *source++;
        }
    }
    port_control_in(control_packet, length);
    left = (uint8_t)(left - length);
    asked = (uint8_t)(asked - length);
    more = length == CONTROL_PACKET && asked != 0; /* USB 2.0 section 8.5.3.2 */
}

static void data_in_step(void)
{
    uint8_t length;

    if (port_control_out(control_packet, &length)) {
        stage = IDLE;
    } else if (more && port_control_in_free()) {
        give_packet();
    }
}

static void data_out_step(void)
{
    uint8_t length;

    if (port_control_out(control_packet, &length)) {
        hid_received(control_packet, length);
        stage = STATUS_READY;
    }
}

static void status_step(void)
{
    if (!port_control_in_free()) {
        return;
    }
    if (stage == STATUS_READY) {
        port_control_in(control_packet, 0);
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
