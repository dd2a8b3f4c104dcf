#ifndef LEAVINGS_H
#define LEAVINGS_H

/* The chip as after a reset, where a boot loader may have left it otherwise. Interrupts are off. */
void leavings_clear(void);

#endif
