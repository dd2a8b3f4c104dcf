#ifndef TICK_H
#define TICK_H

/*
 * One tick every 12 periods of the reference clock, for timer and watchdog: a microsecond from the
 * crystal; from the ring oscillator, before that, 1 to 6.7 of them (datasheet section 2.17.1, from memory).
 */
void tick_start(void);

#endif
