#ifndef USB_BLOCK_H
#define USB_BLOCK_H

/* Let the USB block run from the PLL, or stop both; a stopped block still notices the bus waking. */
void usb_block_run(void);
void usb_block_stop(void);

#endif
