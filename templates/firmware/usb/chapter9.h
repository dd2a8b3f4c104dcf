#ifndef CHAPTER9_H
#define CHAPTER9_H

#include <stdbool.h>

#include "request.h"

void chapter9_reset(void);

/* False: not a request that this device can do in its present state. */
bool chapter9_request(const struct request *request);

/* The status stage of the last request without data to the host is over. */
void chapter9_done(void);

#endif
