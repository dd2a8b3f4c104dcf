#ifndef USB_BLOCK_H
#define USB_BLOCK_H

#include <stdbool.h>

/* Let the USB block run from the PLL, or stop both; a stopped block still notices the bus waking. */
void usb_block_run(void);
void usb_block_stop(void);

/* The bus has shown life since port_usb_events() told of its sleep. */
bool usb_block_woke(void);

#endif
