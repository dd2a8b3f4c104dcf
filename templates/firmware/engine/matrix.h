/*
 * The switch matrix: scanning.
 */
#ifndef MATRIX_H
#define MATRIX_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

/* Every key is up. */
void matrix_start(void);

/*
 * Scan on, up to the next driven line on which something has changed; its edges go to the events. So
 * what is found can be told before the other lines are read. After SWEEP_OVER the next scan begins.
 */
enum sweep { SWEEP_OVER, SWEEP_CHANGED, SWEEP_PRESSED /* a key has newly gone down */ };
enum sweep matrix_sweep(moment now_ms);

/* Whether any key was closed at the last scan. */
bool matrix_any_closed(void);

#if HAS_COMBINATION
/* Whether the key where driven line `drive` and the sensed line of that bit cross was. */
bool matrix_is_closed(uint8_t drive, line_set sense);
#endif

#endif
