/*
 * The HID class: its requests (class.h), and the reports' endpoint.
 */
#ifndef HID_H
#define HID_H

#include <stdbool.h>
#include <stdint.h>

#include "class.h"

/* No host was ever there. */
void hid_start(void);

/* Protocol and idle time as after a bus reset (HID 1.11 sections 7.2.4 and 7.2.6). */
void hid_reset(void);

void hid_step(void);

/* The interrupt endpoint loses what is in it; a report that the host has not taken is given again. */
void hid_emptied(void);

#endif
