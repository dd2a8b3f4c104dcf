#ifndef DESCRIPTORS_H
#define DESCRIPTORS_H

#include <stdbool.h>

#include "request.h"

/* Answer GET_DESCRIPTOR of the device or of the interface; false where there is none. */
bool descriptors_answer(const struct request *request);

#endif
