/*
 * What each key that is down does, as sets of keys see it: doing.c asks them in turn.
 */
#ifndef DOWN_H
#define DOWN_H

#include "sizes.h"

#if HAS_TOGETHER

extern action_number doing[KEYS]; /* SEE_THROUGH: the key is up */

#endif

#endif
