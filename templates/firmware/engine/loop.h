/*
 * The whole device: keyboard, USB, sleep and watchdog.
 */
#ifndef LOOP_H
#define LOOP_H

void loop_start(void);

/* One turn: one scan of the matrix, one look at the bus. Never waits for the host. */
void loop_step(void);

#endif
