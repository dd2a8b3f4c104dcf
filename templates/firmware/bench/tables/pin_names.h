/*
 * The pins by their names in the datasheet; see port.h's lines for their numbers.
 */
#ifndef PIN_NAMES_H
#define PIN_NAMES_H

#include "port_memory.h"
#include "sizes.h"

extern FLASH const char pin_names[PINS][PIN_NAME_BYTES];

#endif
