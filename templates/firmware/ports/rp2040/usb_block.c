/*
 * The USB controller as a device: datasheet section 4.1. Everything is polled.
 *
 * A packet lies in the block's own memory, one buffer an endpoint and direction. Buffer 2n is what
 * endpoint n sends, 2n + 1 what it receives; BUFF_STATUS has a bit for each. `given` says which ones
 * the controller has: it is to send or to fill them, and sets their bit once the host has done so.
 *
 * Not worked round: on revisions B0 and B1 the controller wants 800 us without traffic after a bus reset
 * before it listens, and may never get them on a busy hub (erratum RP2040-E5); the cure borrows GPIO15.
 * On all, an IN with certain bus errors can hang the controller while the program runs on (RP2040-E15),
 * and a watchdog that is fed does not see that.
 */
#include "usb_block.h"

#include "clocks.h"
#include "delay.h"
#include "port.h"
#include "registers.h"

enum { CONTROL_IN = 0, CONTROL_OUT = 1, ENDPOINTS = 16 };

/* Endpoint 0's place is fixed, and for both directions the same; the others follow, 64 bytes each. */
enum { CONTROL_BYTES_AT = 0x100, ENDPOINT_BYTES_AT = 0x180, ROOM = 64 };

_Static_assert(CONTROL_PACKET <= ROOM && ENDPOINT_PACKET <= ROOM, "a packet is one buffer");

static uint32_t given;      /* bit n: buffer n is the controller's */
static uint32_t next_data1; /* bit n: its next packet is DATA1     */
static bool bus_sleeps;
static uint32_t last_frame; /* the one in which the bus fell asleep */

/* --- buffers ------------------------------------------------------------------------------- */

static uint32_t bit_of(uint32_t buffer)
{
    return 1u << buffer;
}

static uint32_t place_of(uint8_t number)
{
    return number == 0 ? CONTROL_BYTES_AT : ENDPOINT_BYTES_AT + ROOM * (number - 1u);
}

static volatile uint8_t *bytes_of(uint8_t number)
{
    return (volatile uint8_t *)(USB_MEMORY + place_of(number));
}

static bool setup_waits(void)
{
    return (USB_SIE_STATUS & USB_STATUS_SETUP_REC) != 0;
}

/*
 * AVAILABLE last, when the rest has reached the controller's slower clock (datasheet section 4.1.2.5.1,
 * "concurrent access"); and not if a SETUP has come meanwhile, since this is no answer to that one.
 */
static void give(uint32_t buffer, uint32_t control)
{
    if ((next_data1 & bit_of(buffer)) != 0) {
        control |= USB_BUFFER_DATA1;
    }
    next_data1 ^= bit_of(buffer);
    given |= bit_of(buffer);
    USB_BUFFER_CONTROL(buffer) = control;
    delay_turns(TURNS_OF_CYCLES(12));
    if (buffer <= CONTROL_OUT && setup_waits()) {
        given &= ~bit_of(buffer);
        return;
    }
    USB_BUFFER_CONTROL(buffer) = control | USB_BUFFER_AVAILABLE;
}

/*
 * From revision B2 on, the controller is told to leave a buffer that it has alone, and says when it does
 * (EP_ABORT and EP_ABORT_DONE, section 4.1.4). It waits for no host, only for a packet that is on the
 * bus; should the controller hang (erratum RP2040-E15), the watchdog ends this. Before B2 an abort never
 * ended (erratum RP2040-E2): there the buffer is just written to.
 */
static bool has_abort(void)
{
    return CHIP_ID_REVISION(CHIP_ID) >= CHIP_REVISION_B2;
}

static void abort_packet(uint32_t buffer)
{
    SET(USB_EP_ABORT) = bit_of(buffer);
    while ((USB_EP_ABORT_DONE & bit_of(buffer)) == 0) {
    }
}

/* The flag last, or it might rise again; the order is a guess, since the datasheet gives none. */
static void abort_over(uint32_t buffer)
{
    CLEAR(USB_EP_ABORT) = bit_of(buffer);
    USB_EP_ABORT_DONE = bit_of(buffer); /* written as 1: cleared */
}

/* Take a buffer back, `control` being 0 or STALL. */
static void take_back(uint32_t buffer, uint32_t control, bool data1_next)
{
    bool aborts = (given & bit_of(buffer)) != 0 && has_abort();

    if (aborts) {
        abort_packet(buffer);
    }
    USB_BUFFER_CONTROL(buffer) = control;
    USB_BUFF_STATUS = bit_of(buffer); /* written as 1: cleared */
    given &= ~bit_of(buffer);
    next_data1 = data1_next ? next_data1 | bit_of(buffer) : next_data1 & ~bit_of(buffer);
    if (aborts) {
        abort_over(buffer);
    }
}

/* The controller does not have the buffer, or no longer: then it may be used again. */
static bool is_done(uint32_t buffer)
{
    if ((given & bit_of(buffer)) == 0) {
        return true;
    }
    if ((USB_BUFF_STATUS & bit_of(buffer)) == 0) {
        return false;
    }
    USB_BUFF_STATUS = bit_of(buffer);
    given &= ~bit_of(buffer);
    return true;
}

static void send(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    volatile uint8_t *place = bytes_of(number);

    for (uint8_t count = 0; count < length; count++) {
        place[count] = bytes[count];
    }
    give(2u * number, USB_BUFFER_FULL | length);
}

/* --- the bus ------------------------------------------------------------------------------- */

bool usb_block_woke(void)
{
    return (USB_SIE_STATUS & (USB_STATUS_RESUME | USB_STATUS_BUS_RESET)) != 0 ||
           USB_SOF_RD != last_frame;
}

static void close_all(void)
{
    for (uint32_t buffer = 0; buffer < 2u * ENDPOINTS; buffer++) {
        take_back(buffer, 0, false);
    }
    for (uint8_t number = 1; number < ENDPOINTS; number++) {
        USB_IN_CONTROL(number) = 0;
    }
#if HAS_SERIAL_PORT
    USB_OUT_CONTROL(BULK_OUT) = 0;
#endif
    USB_ADDR_ENDP = 0;
}

/*
 * At power-on the block's memory holds chance, and afterwards what the boot ROM kept there: endpoints in
 * both directions that nobody has opened.
 */
static void clear_memory(void)
{
    for (uint32_t place = 0; place < USB_MEMORY_BYTES; place += 4) {
        REGISTER(USB_MEMORY + place) = 0;
    }
}

/* The board has no pin that sees the bus power, so the block is told that it is there. */
void port_usb_attach(void)
{
    blocks_release(RESET_USBCTRL);
    clear_memory();
    USB_MUXING = USB_MUXING_TO_PHY | USB_MUXING_SOFTCON;
    USB_PWR = USB_PWR_VBUS_DETECT | USB_PWR_VBUS_DETECT_OVERRIDE;
    USB_MAIN_CTRL = USB_CONTROLLER_EN;
    USB_INTE = USB_INT_BUS_RESET | USB_INT_RESUME | USB_INT_SETUP | USB_INT_SOF; /* end a nap */
    USB_SIE_CTRL = USB_SIE_EP0_INT_1BUF | USB_SIE_PULLUP_EN;
}

/* A frame that has begun since shows a bus that woke just before RESUME was cleared. */
static uint8_t sleep_events(uint32_t status)
{
    if (!bus_sleeps) {
        if ((status & USB_STATUS_SUSPENDED) == 0) {
            return 0;
        }
        bus_sleeps = true;
        last_frame = USB_SOF_RD;
        USB_SIE_STATUS = USB_STATUS_SUSPENDED | USB_STATUS_RESUME; /* written as 1: cleared */
        return PORT_USB_SUSPEND;
    }
    if (!usb_block_woke()) {
        return 0;
    }
    bus_sleeps = false;
    USB_SIE_STATUS = USB_STATUS_SUSPENDED | USB_STATUS_RESUME;
    return PORT_USB_RESUME;
}

uint8_t port_usb_events(void)
{
    uint32_t status = USB_SIE_STATUS;

    if ((status & USB_STATUS_BUS_RESET) == 0) {
        return sleep_events(status);
    }
    USB_SIE_STATUS = USB_STATUS_BUS_RESET | USB_STATUS_SUSPENDED | USB_STATUS_RESUME;
    bus_sleeps = false;
    close_all();
    return PORT_USB_RESET;
}

void port_usb_address(uint8_t address)
{
    USB_ADDR_ENDP = address;
}

void port_usb_wake_host(void)
{
    SET(USB_SIE_CTRL) = USB_SIE_RESUME; /* the block clears it when it is done */
}

/* --- the control endpoint ------------------------------------------------------------------ */

/*
 * The flag before the bytes: should another SETUP come meanwhile, it is read again.
 *
 * What the host left of an unfinished transfer is the controller's until here, for a turn of the main
 * loop, and a host that goes on within that time gets it.
 */
bool port_control_setup(uint8_t packet[8])
{
    if (!setup_waits()) {
        return false;
    }
    USB_SIE_STATUS = USB_STATUS_SETUP_REC;
    take_back(CONTROL_IN, 0, true);
    take_back(CONTROL_OUT, 0, true);
    for (uint8_t count = 0; count < 8; count++) {
        packet[count] = ((volatile uint8_t *)USB_SETUP_PACKET)[count];
    }
    return true;
}

bool port_control_in_free(void)
{
    return is_done(CONTROL_IN);
}

void port_control_in(const uint8_t *bytes, uint8_t length)
{
    send(0, bytes, length);
}

/*
 * The buffer is the controller's only while somebody asks for what comes. A host that sends has taken all
 * that it wanted; if a packet still waits for it, the next transfer must not find that there.
 */
bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    volatile uint8_t *place = bytes_of(0);

    if ((given & bit_of(CONTROL_OUT)) == 0) {
        give(CONTROL_OUT, CONTROL_PACKET);
        return false;
    }
    if (!is_done(CONTROL_OUT)) {
        return false;
    }
    take_back(CONTROL_IN, 0, true);
    uint32_t come = USB_BUFFER_CONTROL(CONTROL_OUT) & USB_BUFFER_LENGTH;
    *length = (uint8_t)(come < CONTROL_PACKET ? come : CONTROL_PACKET);
    for (uint8_t count = 0; count < *length; count++) {
        bytes[count] = place[count];
    }
    return true;
}

/*
 * Section 4.1.2.5.4: of endpoint 0 the controller stalls what is armed as well, until the next SETUP. One
 * that comes just before the arming is not to be refused; the host takes longer than this to ask on.
 */
void port_control_stall(void)
{
    take_back(CONTROL_IN, USB_BUFFER_STALL, true);
    take_back(CONTROL_OUT, USB_BUFFER_STALL, true);
    USB_EP_STALL_ARM = USB_STALL_EP0_BOTH;
    if (setup_waits()) {
        USB_EP_STALL_ARM = 0;
    }
}

/* --- the other endpoints ------------------------------------------------------------------- */

#if HAS_SERIAL_PORT
/* Its one buffer is the controller's from the start, and again as soon as it is read. */
static void open_receiving(uint8_t number)
{
    uint32_t buffer = 2u * number + 1u;

    take_back(buffer, 0, false);
    USB_OUT_CONTROL(number) = USB_ENDPOINT_ENABLE | USB_ENDPOINT_STATUS_PER_BUFFER |
                              USB_ENDPOINT_BULK | place_of(number);
    give(buffer, MEDIA_PACKET);
}
#endif

static void open_sending(uint8_t number, uint32_t kind)
{
    take_back(2u * number, 0, false);
    USB_IN_CONTROL(number) =
        USB_ENDPOINT_ENABLE | USB_ENDPOINT_STATUS_PER_BUFFER | kind | place_of(number);
}

void port_endpoint_open(uint8_t number)
{
#if HAS_SERIAL_PORT
    if (number == BULK_OUT) {
        open_receiving(number);
        return;
    }
    if (number == BULK_IN) {
        open_sending(number, USB_ENDPOINT_BULK);
        return;
    }
#endif
    open_sending(number, USB_ENDPOINT_INTERRUPT);
}

bool port_endpoint_free(uint8_t number)
{
    return is_done(2u * number);
}

void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    send(number, bytes, length);
}

#if HAS_SERIAL_PORT
bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length)
{
    uint32_t buffer = 2u * number + 1u;
    volatile uint8_t *place = bytes_of(number);

    if ((given & bit_of(buffer)) == 0 || !is_done(buffer)) {
        return false;
    }
    uint32_t come = USB_BUFFER_CONTROL(buffer) & USB_BUFFER_LENGTH;
    *length = (uint8_t)(come < MEDIA_PACKET ? come : MEDIA_PACKET);
    for (uint8_t count = 0; count < *length; count++) {
        bytes[count] = place[count];
    }
    give(buffer, MEDIA_PACKET);
    return true;
}
#endif

void port_endpoint_stall(uint8_t number, bool stalled)
{
    uint32_t control = stalled ? USB_BUFFER_STALL : 0;

#if HAS_SERIAL_PORT
    if (number == BULK_OUT && stalled) {
        take_back(2u * number + 1u, control, false);
        return;
    }
    if (number == BULK_OUT) {
        open_receiving(number);
        return;
    }
#endif
    take_back(2u * number, control, false);
}
