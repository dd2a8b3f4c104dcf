#ifndef TICK_H
#define TICK_H

/* The timer counts microseconds from the crystal; it must be out of reset. */
void tick_start(void);

#endif
