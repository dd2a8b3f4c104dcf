/*
 * What libFuzzer calls: bytes are the life of a keyboard. Each op is a byte and what it needs after it;
 * then comes a turn of the loop or several, or none. A use of port.h against its words ends the run, as
 * does a finding of the sanitizers.
 */
#include <stddef.h>
#include <stdint.h>
#include <stdlib.h>
#include <string.h>

#include "host.h"
#include "loop.h"
#include "port.h"
#include "sizes.h"

enum op { KEY, TIME, BUS, SETUP, OUT, IN, PACKET, SPARK }; /* the low three bits of a byte */

enum { TURNS_SHIFT = 3, TURNS = 3, LONG_SHIFT = 5, SETUP_BYTES = 8 };

struct input {
    const uint8_t *at;
    size_t left;
};

static uint8_t next(struct input *input)
{
    if (input->left == 0) {
        return 0;
    }
    input->left--;
    return *input->at++;
}

static void demand(int is_so)
{
    if (!is_so) {
        abort();
    }
}

/* A byte's crossing: the low bits and the next ones; its top bit is the switch. */
static void close_key(uint8_t byte)
{
    uint8_t place = byte & 0x7F;
    host_close(place % DRIVE_LINES, (uint8_t)(place / DRIVE_LINES % SENSE_LINES), byte >> 7 != 0);
}

#ifdef KNOBS
/* A byte's knob, and which of its contacts are closed. */
static void turn_knob(uint8_t byte)
{
    host_knob((uint8_t)(byte >> 2) % KNOBS, byte & 3);
}
#endif

/* A byte's crossing again, with two bits less; and how many readings it lasts, after how many. */
static void spark(uint8_t byte)
{
    uint8_t place = byte & 0x0F;
    host_spark(place % DRIVE_LINES, place / DRIVE_LINES % SENSE_LINES, (byte >> 4) & 3, byte >> 6);
}

static void send_setup(struct input *input)
{
    uint8_t packet[SETUP_BYTES];
    for (size_t place = 0; place < sizeof packet; place++) {
        packet[place] = next(input);
    }
    host_send_setup(packet);
}

static void send_out(struct input *input)
{
    uint8_t bytes[CONTROL_PACKET];
    uint8_t length = next(input) % (CONTROL_PACKET + 1);
    for (uint8_t place = 0; place < length; place++) {
        bytes[place] = next(input);
    }
    host_send_out(bytes, length);
}

static void take(int (*how)(uint8_t *bytes))
{
    uint8_t bytes[ENDPOINT_PACKET > CONTROL_PACKET ? ENDPOINT_PACKET : CONTROL_PACKET];
    demand(how(bytes) <= (int)sizeof bytes);
}

static int take_report(uint8_t *bytes)
{
    return host_take_packet(1, bytes);
}

/* Of the second interface, where there is one. */
static int take_other_report(uint8_t *bytes)
{
    return host_take_packet(2, bytes);
}

static void perform(uint8_t op, struct input *input)
{
    switch ((enum op)(op & 7)) {
    case KEY:
#ifdef KNOBS
        if (op >> LONG_SHIFT > 3) {
            turn_knob(next(input));
            break;
        }
#endif
        close_key(next(input));
        break;
    case TIME: /* from 0 ms to 1.8 s */
        host_advance_ms((uint16_t)(next(input) * ((op >> LONG_SHIFT) + 1)));
        break;
    case BUS:
        host_bus(next(input) & (PORT_USB_RESET | PORT_USB_SUSPEND | PORT_USB_RESUME));
        break;
    case SETUP:
        send_setup(input);
        break;
    case OUT:
        send_out(input);
        break;
    case IN:
        take(host_take_in);
        break;
    case PACKET:
        take(op >> LONG_SHIFT > 3 ? take_other_report : take_report);
        break;
    case SPARK:
        spark(next(input));
        break;
    }
}

/* A life before this one left its state behind, which no chip does: a host's first reset clears it. */
static void begin(void)
{
    host_reset();
    loop_start();
    host_bus(PORT_USB_RESET);
    loop_step();
}

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size);

int LLVMFuzzerTestOneInput(const uint8_t *data, size_t size)
{
    struct input input = {data, size};

    begin();
    while (input.left != 0) {
        uint8_t op = next(&input);
        perform(op, &input);
        for (int turn = (op >> TURNS_SHIFT) & TURNS; turn != 0; turn--) {
            loop_step();
        }
        demand(host_faults() == 0 && host_address() < 128);
    }
    return 0;
}
