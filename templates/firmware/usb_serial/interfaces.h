/*
 * The numbers of the device's interfaces; port.h has those of its endpoints.
 */
#ifndef INTERFACES_H
#define INTERFACES_H

enum { CONTROL_INTERFACE = 0, DATA_INTERFACE = 1, LAST_INTERFACE = DATA_INTERFACE };

#endif
