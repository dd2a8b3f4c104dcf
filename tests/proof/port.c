/*
 * port.h for the proof: whatever may come from switches, time, bus and host does come. Each answer is
 * any value of its kind, so that what holds here holds for every matrix, every clock and every host.
 * What port.h asks of its callers is asserted.
 */
#if __has_include("bench/bench.h") /* of a tree that is written: its conditions are decided */
#define HAS_UNKNOWN_WIRING 1
#define HAS_SELF_REPORT 1
#endif

#include "port.h"
#include "port_memory.h"

#if __has_include("bench/bench.h")
#include "bench/bench.h"
#define START bench_start
#define STEP bench_step
#else
#include "loop.h"
#define START loop_start
#define STEP loop_step
#endif

enum { SMALL_PACKET = 16 }; /* MEDIA_PACKET, which not all keyboards have */
enum { KEPT_BYTES = 2 }; /* PORT_KEPT_BYTES, which few keyboards have */

extern volatile int any;

static uint8_t any_byte(void)
{
    return (uint8_t)any;
}

void host_fault(void)
{
    /*@ assert tables_of_this_engine: \false; */
}

void port_start(void)
{
}

uint16_t port_milliseconds(void)
{
    return (uint16_t)any;
}

void port_watchdog_start(void)
{
}

void port_watchdog_feed(void)
{
}

void port_boot_loader(void)
{
}

#ifdef LIGHTS
void port_lights(light_set lit)
{
    (void)lit;
}
#endif

uint8_t port_kept(uint8_t place)
{
    /*@ assert a_kept_byte: place < KEPT_BYTES; */
    return any_byte();
}

bool port_keep(uint8_t place, uint8_t value)
{
    /*@ assert a_kept_byte: place < KEPT_BYTES; */
    return any_byte() != 0;
}

static line_set any_lines(void)
{
    return (line_set)((unsigned)any & ((1u << (SENSE_LINES - 1) << 1) - 1u));
}

#if HAS_SELF_REPORT
uint16_t port_ticks(void)
{
    return (uint16_t)any;
}

uint16_t port_frame(void)
{
    return (uint16_t)((unsigned)any % 2048);
}

void port_register(uint8_t number, struct port_register *found)
{
    /*@ assert a_register: number < PORT_REGISTERS; */
    found->name = "signature";
    found->length = (uint8_t)((unsigned)any % 5);
    for (int place = 0; place < 4; place++) {
        found->bytes[place] = any_byte();
    }
}
#endif

#if HAS_UNKNOWN_WIRING
uint8_t port_rise_us(uint8_t drive)
{
    /*@ assert a_rising_line: drive < DRIVE_LINES; */
    return any_byte();
}

bool port_pull(uint8_t drive, line_set *low)
{
    /*@ assert a_pulled_line: drive < DRIVE_LINES; */
    if (any == 0) {
        return false;
    }
    *low = any_lines();
    return true;
}
#else
line_set port_read(uint8_t drive, uint8_t times)
{
    /*@ assert at_least_once: times != 0; */
    /*@ assert a_driven_line: drive < DRIVE_LINES; */
    return any_lines();
}

uint8_t port_scan(line_set *reading)
{
    *reading = any_lines();
    return (uint8_t)((unsigned)any % (DRIVE_LINES + 1));
}

void port_expect(uint8_t drive, line_set closed)
{
    /*@ assert a_driven_line_to_expect: drive < DRIVE_LINES; */
}
#endif

#ifdef KNOBS /* of a tree that is written: its conditions are decided */
knob_set port_knobs(void)
{
    return (knob_set)any;
}
#endif

void port_usb_attach(void)
{
}

uint8_t port_usb_events(void)
{
    return any_byte() & (PORT_USB_RESET | PORT_USB_SUSPEND | PORT_USB_RESUME);
}

void port_usb_address(uint8_t address)
{
    /*@ assert an_address: address < 128; */
}

void port_usb_nap(void)
{
}

void port_usb_wake_host(void)
{
}

bool port_control_setup(uint8_t packet[8])
{
    if (any == 0) {
        return false;
    }
    /*@ loop unroll 8; */
    for (int place = 0; place < 8; place++) {
        packet[place] = any_byte();
    }
    return true;
}

bool port_control_in_free(void)
{
    return any != 0;
}

static void read_all(const uint8_t *bytes, uint8_t length)
{
    for (uint8_t place = 0; place < length; place++) {
        any = bytes[place];
    }
}

void port_control_in(const uint8_t *bytes, uint8_t length)
{
    /*@ assert one_packet: length <= CONTROL_PACKET; */
    read_all(bytes, length);
}

bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    if (any == 0) {
        return false;
    }
    uint8_t come = any_byte();
    *length = come <= CONTROL_PACKET ? come : CONTROL_PACKET;
    /*@ loop unroll CONTROL_PACKET; */
    for (uint8_t place = 0; place < CONTROL_PACKET; place++) {
        if (place < *length) {
            bytes[place] = any_byte();
        }
    }
    return true;
}

void port_control_stall(void)
{
}

void port_endpoint_open(uint8_t number)
{
}

bool port_endpoint_free(uint8_t number)
{
    return any != 0;
}

void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    /*@ assert one_packet: length <= (number == 1 ? ENDPOINT_PACKET : SMALL_PACKET); */
    read_all(bytes, length);
}

bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length)
{
    /*@ assert receives: number == 3; */ /* BULK_OUT, which only a serial port has */
    if (any == 0) {
        return false;
    }
    uint8_t come = any_byte();
    *length = come <= SMALL_PACKET ? come : SMALL_PACKET;
    /*@ loop unroll SMALL_PACKET; */
    for (uint8_t place = 0; place < SMALL_PACKET; place++) {
        if (place < *length) {
            bytes[place] = any_byte();
        }
    }
    return true;
}

void port_endpoint_stall(uint8_t number, bool stalled)
{
}

int main(void)
{
    START();
    for (;;) {
        STEP();
    }
}
