/*
 * A line of text for the host, put together and given as one packet: it is never torn.
 */
#ifndef LINE_H
#define LINE_H

#include <stdbool.h>
#include <stdint.h>

#include "port_memory.h"
#include "sizes.h"

void line_begin(void);
void line_add(FLASH const char *text);
void line_add_pin(uint8_t pin);

/* In two digits; in as many as it takes, if it is below ten millions. */
void line_add_hex(uint8_t byte);
void line_add_number(uint32_t number);

/* A blank and one more pin's name fit. */
bool line_has_room(void);

/* End the line and give it. Only after serial_free(). */
void line_give(void);

#endif
