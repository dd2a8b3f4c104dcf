#ifndef DESCRIPTORS_H
#define DESCRIPTORS_H

#include <stdbool.h>
#include <stdint.h>

#include "port_memory.h" /* FLASH */
#include "request.h"
#include "sizes.h" /* answer_length */

/* What answers are made of; see answer.h. */
struct constant {
    FLASH const uint8_t *bytes;
    answer_length length;
};

static inline struct constant constant_of(FLASH const uint8_t *bytes, answer_length length)
{
    return (struct constant){bytes, length};
}

struct constant descriptors_get(uint8_t number);

/* Answer GET_DESCRIPTOR of the device or of an interface; false where there is none. */
bool descriptors_answer(const struct request *request);

#endif
