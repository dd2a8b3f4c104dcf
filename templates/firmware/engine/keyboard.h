/*
 * The keyboard: from closed switches to reports given.
 */
#ifndef KEYBOARD_H
#define KEYBOARD_H

#include <stdbool.h>

/* Every key is up, only the base layer is on. */
void keyboard_start(void);

/* One whole scan, and as many events as the transport takes. True if a key has newly gone down. */
bool keyboard_step(void);

#endif
