/*
 * The data to answer a request with: a handler puts them here, control.c gives them to the host. Each of
 * these returns true, so that a handler can, too; one that returns false refuses the request, by STALL.
 */
#ifndef ANSWER_H
#define ANSWER_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h" /* CONTROL_PACKET */

struct answer {
    uint8_t constant; /* which of descriptors.h's; or IN_PACKET */
    uint8_t length;   /* of what is in `packet`                 */
    uint8_t packet[CONTROL_PACKET];
};

enum { IN_PACKET = 0xFF };

extern struct answer answer;

bool answer_packet(uint8_t length); /* with what is in answer.packet */
bool answer_byte(uint8_t value);
bool answer_constant(uint8_t number);

#endif
