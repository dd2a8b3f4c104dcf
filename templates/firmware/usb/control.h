#ifndef CONTROL_H
#define CONTROL_H

/* No transfer is under way. */
void control_reset(void);

/* Look at the control endpoint once. */
void control_step(void);

#endif
