/*
 * What the host is told, a line at a time, each when there is room for it.
 */
#ifndef TELL_H
#define TELL_H

#include <stdbool.h>

void tell_start(void);

/* Begin anew: version and chip, pins, all that is closed, `ready`; then each change. */
void tell_everything(void);

/* Say which command there is. */
void tell_help(void);

/* Somebody listens: the port is open, or was asked. */
bool tell_listens(void);

/* Tell the next line, if there is one and room for it. */
void tell_step(void);

#endif
