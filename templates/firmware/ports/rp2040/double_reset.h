/*
 * Pressing reset twice within half a second enters the boot loader, where the .keys file asks for it.
 * Plugging it in counts as the first press.
 */
#ifndef DOUBLE_RESET_H
#define DOUBLE_RESET_H

#include "sizes.h"

#if HAS_DOUBLE_RESET

/* Once, early: this start is the second press, or it may be the first. Needs the millisecond tick. */
void double_reset_start(void);

/* Now and then: the first press no longer counts once its time is over. */
void double_reset_step(void);

#endif

#endif
