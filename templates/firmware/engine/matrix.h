/*
 * The switch matrix: scanning and debouncing.
 */
#ifndef MATRIX_H
#define MATRIX_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* Every key is up. */
void matrix_start(void);

/* One whole scan; accepted changes go to the event queue. True if a key has newly gone down. */
bool matrix_sweep(void);

/* Whether any key was read closed by the last scan. */
bool matrix_any_closed(void);

/* Whether the key where driven line `drive` and the sensed line of that bit cross is down. */
bool matrix_is_down(uint8_t drive, line_set sense);

#endif
