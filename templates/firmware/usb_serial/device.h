/*
 * The serial port as a USB device: USB 2.0 chapter 9 and the class of serial.h, on top of port.h. Nothing
 * here waits; device_step() does the little there is to do and returns.
 */
#ifndef DEVICE_H
#define DEVICE_H

#include <stdbool.h>

/* Show the device to the host. Called once, before device_step(). */
void device_start(void);

/* Look at the bus once: events, the control endpoint. */
void device_step(void);

/* The host has put the bus to sleep. */
bool device_suspended(void);

#endif
