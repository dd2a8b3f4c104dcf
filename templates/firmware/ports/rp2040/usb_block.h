#ifndef USB_BLOCK_H
#define USB_BLOCK_H

#include <stdbool.h>

/* The bus has shown life since port_usb_events() told of its sleep. */
bool usb_block_woke(void);

#endif
