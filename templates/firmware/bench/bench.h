/*
 * The whole device: pins that are pulled low in turn, and a serial port that tells which others follow.
 */
#ifndef BENCH_H
#define BENCH_H

void bench_start(void);

/* One turn: one pin pulled low, one look at the bus, at most one line told. Never waits for the host. */
void bench_step(void);

#endif
