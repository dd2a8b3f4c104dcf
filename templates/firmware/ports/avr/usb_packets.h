#ifndef USB_PACKETS_H
#define USB_PACKETS_H

/* Open control endpoint 0, empty. */
void usb_packets_open_control(void);

#endif
