/*
 * What the host has made of the device.
 */
#ifndef STATE_H
#define STATE_H

#include <stdbool.h>

/* device.c writes `suspended`, chapter9.c the others. */
struct device {
    bool configured;
    bool halted;    /* the keyboard's endpoint is */
    bool may_wake;  /* the host, while suspended */
    bool suspended; /* and still so while it is being woken */
};

extern struct device device;

#endif
