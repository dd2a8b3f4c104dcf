/*
 * What only the chip itself knows, a line at a time: its registers, how it runs, and how fast its pins rise.
 */
#ifndef FACTS_H
#define FACTS_H

#include <stdbool.h>
#include <stdint.h>

/* Tell fact `number`, from 0 on, if it is known by now; false after the last. Only after serial_free(). */
bool facts_tell(uint8_t number);

/* Tell how long a pin takes to rise, if nothing seems to hold it high. Only after serial_free(). */
void facts_tell_rise(uint8_t pin);

#endif
