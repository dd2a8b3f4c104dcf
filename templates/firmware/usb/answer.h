/*
 * The data to answer a request with: a handler puts them here, control.c gives them to the host. Each of
 * these returns true, so that a handler can, too; one that returns false refuses the request, by STALL.
 */
#ifndef ANSWER_H
#define ANSWER_H

#include <stdbool.h>
#include <stdint.h>

#include "port_memory.h" /* FLASH */
#include "sizes.h"       /* CONTROL_PACKET */

struct answer {
    uint8_t length; /* however few the host has asked for         */
    bool in_flash;  /* they are at `bytes`, and else in `packet`  */
    FLASH const uint8_t *bytes;
    uint8_t packet[CONTROL_PACKET];
};

extern struct answer answer;

bool answer_packet(uint8_t length); /* with what is in answer.packet */
bool answer_byte(uint8_t value);
bool answer_flash(FLASH const uint8_t *bytes, uint8_t length);

#endif
