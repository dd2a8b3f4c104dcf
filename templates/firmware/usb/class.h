/*
 * The requests of the device's class: control.c knows no more of a class than this.
 */
#ifndef CLASS_H
#define CLASS_H

#include <stdbool.h>
#include <stdint.h>

#include "request.h"

/* False: not a request that the device can do in its present state. */
bool class_request(const struct request *request);

/* The data that came with the last request, if it was not refused. */
void class_received(const uint8_t *bytes, uint8_t length);

#endif
