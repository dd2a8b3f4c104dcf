/*
 * The switch matrix: scanning and debouncing.
 */
#ifndef MATRIX_H
#define MATRIX_H

#include <stdbool.h>

/* Every key is up. */
void matrix_start(void);

/* One whole scan; accepted changes go to the event queue. True if a key has newly gone down. */
bool matrix_scan(void);

#endif
