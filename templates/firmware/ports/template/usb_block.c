/*
 * The USB device controller, polled. What each function must do, and what must follow it, is in port.h.
 */
#include "port.h"

/* Pull-up on D+. The block has been off until now, so that the host sees a new device. */
void port_usb_attach(void)
{
}

/* At PORT_USB_RESET the control endpoint is open again and the address is 0 before this returns. */
uint8_t port_usb_events(void)
{
    return 0;
}

void port_usb_address(uint8_t address)
{
    (void)address;
}

/* Doing nothing for 20 ms is right, if not thrifty. The watchdog must not bite meanwhile. */
void port_usb_nap(void)
{
}

void port_usb_wake_host(void)
{
}

/* The newest SETUP packet; whatever waited in either direction of endpoint 0 is void. */
bool port_control_setup(uint8_t packet[8])
{
    (void)packet;
    return false;
}

bool port_control_in_free(void)
{
    return false;
}

/* The first packet after a SETUP is DATA1, as is the status packet (USB 2.0 section 8.5.3). */
void port_control_in(const uint8_t *bytes, uint8_t length)
{
    (void)bytes;
    (void)length;
}

bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    (void)bytes;
    (void)length;
    return false;
}

/* Both directions; the next SETUP is taken all the same. */
void port_control_stall(void)
{
}

void port_endpoint_open(uint8_t number)
{
    (void)number;
}

bool port_endpoint_free(uint8_t number)
{
    (void)number;
    return false;
}

/* Copy the bytes: the caller's are its own again when this returns. */
void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    (void)number;
    (void)bytes;
    (void)length;
}

#if HAS_SERIAL_PORT
/* A port that builds keyboards alone leaves it out. */
bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length)
{
    (void)number;
    (void)bytes;
    (void)length;
    return false;
}
#endif

void port_endpoint_stall(uint8_t number, bool stalled)
{
    (void)number;
    (void)stalled;
}
