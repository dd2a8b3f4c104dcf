/*
 * The keyboard as a USB device: USB 2.0 chapter 9 and the HID class, version 1.11, on top of port.h.
 * Nothing here waits; usb_step() does the little there is to do and returns.
 */
#ifndef USB_H
#define USB_H

#include <stdbool.h>

/* Show the device to the host. Called once, before usb_step(). */
void usb_start(void);

/* Look at the bus once: events, the control endpoint, the idle time of the report. */
void usb_step(void);

/* The host has put the bus to sleep, and nothing of ours is under way to wake it. */
bool usb_suspended(void);

/* Ask the host to wake up, as soon as it may be asked; nothing if it has not allowed that. */
void usb_wake_host(void);

#endif
