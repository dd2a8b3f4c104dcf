/*
 * What each key that is down does, for doing.c and for what that asks in turn.
 */
#ifndef DOWN_H
#define DOWN_H

#include "sizes.h"

extern action_number doing[KEYS]; /* SEE_THROUGH: the key is up */

#endif
