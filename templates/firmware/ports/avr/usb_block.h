#ifndef USB_BLOCK_H
#define USB_BLOCK_H

#include <stdbool.h>

/* Let the USB block run from the PLL, or stop both; a stopped block still notices the bus waking. */
void usb_block_run(void);
void usb_block_stop(void);

/* The bus has shown life since port_usb_events() looked last. */
bool usb_block_woke(void);

/* Bus suspended: nothing has been seen on it lately, so that the block may stop. */
bool usb_block_may_stop(void);

#endif
