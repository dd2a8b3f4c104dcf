/*
 * The lights: those of locks as the computer says, those of layers as they are on.
 */
#ifndef LIGHTS_H
#define LIGHTS_H

#include "sizes.h"

#if HAS_LIGHTS
/*
 * Light what is to be lit by now. Once in each turn, after all that may change it and before a nap: while
 * nobody listens every light is dark, since a bus that sleeps gives hardly any current (USB 2.0 section 7.2.3).
 */
void lights_step(void);
#endif

#endif
