/*
 * The bench's firmware under any host: random switches, time, bus events, packets and requests for some
 * thousand turns. Prints how often port.h was used against its own words.
 */
#include <stdio.h>
#include <stdlib.h>

#include "bench/bench.h"
#include "host.h"
#include "port.h"

static uint32_t state;

static unsigned chance(unsigned of)
{
    state = state * 1664525u + 1013904223u;
    return (state >> 8) % of;
}

static const uint8_t requests[][8] = {
    {0x80, 6, 0, 1, 0, 0, 18, 0},  {0x80, 6, 0, 2, 0, 0, 255, 0}, {0x80, 6, 2, 3, 9, 4, 255, 0},
    {0x00, 5, 9, 0, 0, 0, 0, 0},   {0x00, 9, 1, 0, 0, 0, 0, 0},   {0x00, 9, 0, 0, 0, 0, 0, 0},
    {0x21, 0x22, 3, 0, 0, 0, 0, 0}, {0x21, 0x22, 0, 0, 0, 0, 0, 0}, {0x21, 0x20, 0, 0, 0, 0, 7, 0},
    {0xA1, 0x21, 0, 0, 0, 0, 7, 0}, {0x02, 3, 0, 0, 0x81, 0, 0, 0}, {0x02, 1, 0, 0, 0x81, 0, 0, 0},
    {0x02, 3, 0, 0, 0x03, 0, 0, 0}, {0x02, 1, 0, 0, 0x03, 0, 0, 0}, {0x01, 11, 0, 0, 1, 0, 0, 0},
};

static void ask(void)
{
    uint8_t request[8];
    unsigned which = chance(sizeof requests / sizeof requests[0]);

    for (unsigned place = 0; place < 8; place++) {
        request[place] = chance(40) != 0 ? requests[which][place] : (uint8_t)chance(256);
    }
    host_send_setup(request);
}

static void send(bool to_control)
{
    uint8_t bytes[CONTROL_PACKET];
    uint8_t length = (uint8_t)chance(to_control ? 10 : MEDIA_PACKET + 1);

    for (unsigned place = 0; place < length; place++) {
        bytes[place] = (uint8_t)("?\n\rA\xB0\x04"[chance(6)]);
    }
    if (to_control) {
        host_send_out(bytes, length);
    } else {
        host_send_packet(BULK_OUT, bytes, length);
    }
}

static void something(void)
{
    uint8_t bytes[64];

    switch (chance(9)) {
    case 0:
        host_close((uint8_t)chance(PINS), (uint8_t)chance(PINS), chance(2) != 0);
        break;
    case 1:
        host_advance_ms((uint16_t)chance(8));
        host_run(chance(3000000), (uint16_t)chance(2048));
        break;
    case 2:
        ask();
        break;
    case 3:
        send(true);
        break;
    case 4:
        send(false);
        break;
    case 5:
        host_take_in(bytes);
        break;
    case 6:
        host_take_packet((uint8_t)(1 + chance(3)), bytes);
        break;
    case 7:
        host_hold((uint8_t)chance(PINS), chance(2) != 0);
        break;
    default:
        if (chance(40) == 0) {
            host_bus((uint8_t)(1u << chance(3)));
        }
    }
}

int main(int count, char **arguments)
{
    unsigned turns = count > 2 ? (unsigned)atoi(arguments[2]) : 1000;

    state = count > 1 ? (uint32_t)atoi(arguments[1]) : 1;
    host_reset();
    bench_start();
    for (unsigned turn = 0; turn < turns; turn++) {
        something();
        bench_step();
    }
    printf("%u turns, %u faults\n", turns, host_faults());
    return 0;
}
