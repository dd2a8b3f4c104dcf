/*
 * How the controller runs, as nothing else on the bench can tell: how long a turn of the main loop takes, and how
 * its clock compares with the computer's, which sends a start of frame each millisecond (USB 2.0 section 7.1.12).
 */
#ifndef MEASURE_H
#define MEASURE_H

#include <stdbool.h>
#include <stdint.h>

void measure_start(void);

/* Once in each turn. */
void measure_turn(void);

/* Time stood still: what was under way begins once more. */
void measure_restart(void);

/* The longest turn since the start. */
uint32_t measure_longest_us(void);

/* How long the last 1,024 frames or some more took by the chip's clock; false before there were as many. */
bool measure_frames(uint32_t *microseconds, uint16_t *frames);

#endif
