/*
 * port.h in memory. Where a call breaks what port.h says, host_faults() counts it.
 */
#include "port.h"

#include <string.h>

#include "host.h"
#include "port_memory.h"

enum { ENDPOINTS = 4 };
#if HAS_REMEMBERED_BASE
enum { WRITE_MS = 4 }; /* that a byte which is kept takes, as in an EEPROM */
#endif

struct packet {
    bool full;
    uint8_t length;
    uint8_t bytes[ENDPOINT_PACKET > CONTROL_PACKET ? ENDPOINT_PACKET : CONTROL_PACKET];
};

struct endpoint {
    bool open;
    bool stalled;
    bool toggle;
    struct packet in, out; /* `out` is the host's to fill while it is not full */
};

/* A crossing reads low besides, at so many readings of its line after so many others. */
struct spark {
    unsigned before, readings;
};

static struct {
    line_set closed[DRIVE_LINES], expected[DRIVE_LINES];
    bool held[DRIVE_LINES]; /* high, by something on the line */
    unsigned looks[DRIVE_LINES];
    uint8_t rises[DRIVE_LINES];
    uint32_t microseconds;
    uint16_t frame;
    struct spark sparks[DRIVE_LINES][SENSE_LINES];
    uint16_t milliseconds;
#if HAS_KNOBS
    knob_set contacts;
#endif
#if HAS_REMEMBERED_BASE
    uint8_t changed[PORT_KEPT_BYTES]; /* bytes kept, the other way round: 0 for never */
    bool writing;                     /* one of them, since then */
    uint16_t written_ms;
#endif
#if HAS_LIGHTS
    light_set lit;
#endif
    bool started, watched, attached;
    uint8_t events, address;
    unsigned naps, wakes, feeds, faults, boot_loads;
    bool setup_full, control_stalled;
    uint8_t setup[8];
    struct packet control_in, control_out;
    struct endpoint endpoints[ENDPOINTS];
} world;

static bool right(bool as_port_h_says)
{
    world.faults += as_port_h_says ? 0u : 1u;
    return as_port_h_says;
}

void host_fault(void)
{
    right(false);
}

static void fill(struct packet *packet, const uint8_t *bytes, uint8_t length)
{
    packet->full = true;
    packet->length = length;
    if (length != 0) {
        memcpy(packet->bytes, bytes, length);
    }
}

static int empty(struct packet *packet, uint8_t *bytes)
{
    if (!packet->full) {
        return HOST_NAK;
    }
    packet->full = false;
    memcpy(bytes, packet->bytes, packet->length);
    return packet->length;
}

/* --- port.h: life, time, matrix ------------------------------------------------------------ */

void port_start(void)
{
    right(!world.started);
    world.started = true;
}

uint16_t port_milliseconds(void)
{
    return world.milliseconds;
}

void port_watchdog_start(void)
{
    world.watched = true;
}

void port_watchdog_feed(void)
{
    world.feeds++;
}

void port_boot_loader(void)
{
    world.boot_loads++;
}

#if HAS_LIGHTS
void port_lights(light_set lit)
{
    right((lit >> (LIGHTS - 1)) <= 1);
    world.lit = lit;
}
#endif

#if HAS_REMEMBERED_BASE
uint8_t port_kept(uint8_t place)
{
    return right(place < PORT_KEPT_BYTES) ? (uint8_t)~world.changed[place] : 0xFF;
}

bool port_keep(uint8_t place, uint8_t value)
{
    if (world.writing && (uint16_t)(world.milliseconds - world.written_ms) < WRITE_MS) {
        return false;
    }
    world.writing = right(place < PORT_KEPT_BYTES) && port_kept(place) != value;
    if (world.writing) {
        world.changed[place] = (uint8_t)~value;
        world.written_ms = world.milliseconds;
    }
    return true;
}
#endif

#if HAS_KNOBS
knob_set port_knobs(void)
{
    return world.contacts;
}
#endif

#if HAS_SELF_REPORT
uint16_t port_ticks(void)
{
    return (uint16_t)(world.microseconds / PORT_TICK_US);
}

uint16_t port_frame(void)
{
    return world.frame;
}

void port_register(uint8_t number, struct port_register *found)
{
    static const char *const names[PORT_REGISTERS] = {"chip", "fuses"};

    right(number < PORT_REGISTERS);
    *found = (struct port_register){names[number], 4, {0x00, 0xC0, 0xFF, 0xEE}};
    found->length = number == 0 ? 4 : 1;
}
#endif

#if HAS_UNKNOWN_WIRING
uint8_t port_rise_us(uint8_t drive)
{
    if (!right(drive < DRIVE_LINES)) {
        return 0;
    }
    world.looks[drive]++;
    return world.held[drive] ? PORT_IS_HIGH : world.rises[drive];
}

bool port_pull(uint8_t drive, line_set *low)
{
    if (!right(drive < DRIVE_LINES)) {
        return false;
    }
    world.looks[drive]++;
    if (world.held[drive]) {
        return false;
    }
    *low = world.closed[drive];
    return true;
}
#else
static line_set sparks(uint8_t drive)
{
    line_set low = 0;
    for (uint8_t sense = 0; sense < SENSE_LINES; sense++) {
        struct spark *spark = &world.sparks[drive][sense];
        if (spark->before != 0) {
            spark->before--;
        } else if (spark->readings != 0) {
            spark->readings--;
            low |= (line_set)((line_set)1 << sense);
        }
    }
    return low;
}

line_set port_read(uint8_t drive, uint8_t times)
{
#if HAS_LONG_SCAN
    knobs_look();
#endif
    if (!right(drive < DRIVE_LINES && times != 0)) {
        return 0;
    }
    line_set low = (line_set)(world.closed[drive] | sparks(drive));
    while (--times != 0) {
        low &= (line_set)(world.closed[drive] | sparks(drive));
    }
    return low;
}

uint8_t port_scan(line_set *reading)
{
    for (uint8_t drive = 0; drive < DRIVE_LINES; drive++) {
        *reading = port_read(drive, 1);
        if (*reading != world.expected[drive]) {
            return drive;
        }
    }
    return DRIVE_LINES;
}

void port_expect(uint8_t drive, line_set closed)
{
    if (right(drive < DRIVE_LINES)) {
        world.expected[drive] = closed;
    }
}
#endif

/* --- port.h: USB --------------------------------------------------------------------------- */

void port_usb_attach(void)
{
    world.attached = true;
}

uint8_t port_usb_events(void)
{
    uint8_t events = world.events;
    world.events = 0;
    if ((events & PORT_USB_RESET) != 0) {
        memset(world.endpoints, 0, sizeof world.endpoints);
    }
    return events;
}

void port_usb_address(uint8_t address)
{
    world.address = address;
}

void port_usb_nap(void)
{
    world.naps++;
    world.milliseconds = (uint16_t)(world.milliseconds + 20);
}

void port_usb_wake_host(void)
{
    world.wakes++;
}

bool port_control_setup(uint8_t packet[8])
{
    if (!world.setup_full) {
        return false;
    }
    world.setup_full = false;
    memcpy(packet, world.setup, sizeof world.setup);
    return true;
}

bool port_control_in_free(void)
{
    return !world.control_in.full;
}

void port_control_in(const uint8_t *bytes, uint8_t length)
{
    if (right(length <= CONTROL_PACKET && !world.control_in.full)) {
        fill(&world.control_in, bytes, length);
    }
}

bool port_control_out(uint8_t *bytes, uint8_t *length)
{
    int taken = empty(&world.control_out, bytes);
    *length = taken < 0 ? 0 : (uint8_t)taken;
    return taken >= 0;
}

void port_control_stall(void)
{
    world.control_stalled = true;
}

static uint8_t room_of(uint8_t number)
{
#ifdef MEDIA_PACKET
    return number == 1 ? ENDPOINT_PACKET : MEDIA_PACKET;
#else
    return number == 1 ? ENDPOINT_PACKET : 0;
#endif
}

static struct endpoint *endpoint(uint8_t number)
{
    return &world.endpoints[right(number >= 1 && number < ENDPOINTS) ? number : 0];
}

void port_endpoint_open(uint8_t number)
{
    *endpoint(number) = (struct endpoint){.open = true};
}

bool port_endpoint_free(uint8_t number)
{
    return !endpoint(number)->in.full;
}

void port_endpoint_give(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    struct endpoint *to = endpoint(number);
    if (right(to->open && !to->in.full && length <= room_of(number))) {
        fill(&to->in, bytes, length);
    }
}

#if HAS_SERIAL_PORT
bool port_endpoint_take(uint8_t number, uint8_t *bytes, uint8_t *length)
{
    struct endpoint *from = endpoint(number);
    if (!right(number == BULK_OUT && from->open)) {
        return false;
    }
    int taken = empty(&from->out, bytes);
    *length = taken < 0 ? 0 : (uint8_t)taken;
    return taken >= 0;
}
#endif

void port_endpoint_stall(uint8_t number, bool stalled)
{
    struct endpoint *to = endpoint(number);
    to->stalled = stalled;
    if (!stalled) {
        to->toggle = false;
        to->in.full = false;
    }
}

/* --- host.h -------------------------------------------------------------------------------- */

void host_reset(void)
{
    memset(&world, 0, sizeof world);
}

unsigned host_faults(void)
{
    return world.faults;
}

void host_rise(uint8_t line, uint8_t microseconds)
{
    if (right(line < DRIVE_LINES)) {
        world.rises[line] = microseconds;
    }
}

void host_run(uint32_t microseconds, uint16_t frames)
{
    world.microseconds += microseconds;
    world.frame = (uint16_t)((world.frame + frames) & 0x7FF);
}

unsigned host_looks(uint8_t line)
{
    return right(line < DRIVE_LINES) ? world.looks[line] : 0;
}

void host_hold(uint8_t line, bool held)
{
    if (right(line < DRIVE_LINES)) {
        world.held[line] = held;
    }
}

void host_close(uint8_t drive, uint8_t sense, bool closed)
{
    if (right(drive < DRIVE_LINES && sense < SENSE_LINES)) {
        line_set bit = (line_set)((line_set)1 << sense);
        line_set others = (line_set)(world.closed[drive] & (line_set)~bit);
        world.closed[drive] = closed ? (line_set)(others | bit) : others;
    }
}

void host_knob(uint8_t number, uint8_t contacts)
{
#if HAS_KNOBS
    if (right(number < KNOBS && contacts < 4)) {
        knob_set others = (knob_set)(world.contacts & (knob_set)~((knob_set)3 << (2 * number)));
        world.contacts = (knob_set)(others | (knob_set)((knob_set)contacts << (2 * number)));
    }
#else
    (void)number;
    (void)contacts;
    right(false);
#endif
}

void host_spark(uint8_t drive, uint8_t sense, unsigned before, unsigned readings)
{
    if (right(drive < DRIVE_LINES && sense < SENSE_LINES)) {
        world.sparks[drive][sense] = (struct spark){before, readings};
    }
}

void host_advance_ms(uint16_t ms)
{
    world.milliseconds = (uint16_t)(world.milliseconds + ms);
}

void host_bus(uint8_t events)
{
    world.events |= events;
    if ((events & PORT_USB_RESET) != 0) {
        world.address = 0;
        world.setup_full = false;
        world.control_stalled = false;
        world.control_in.full = false;
        world.control_out.full = false;
    }
}

bool host_attached(void)
{
    return world.attached;
}

bool host_started(void)
{
    return world.started;
}

bool host_watched(void)
{
    return world.watched;
}

uint8_t host_address(void)
{
    return world.address;
}

unsigned host_naps(void)
{
    return world.naps;
}

unsigned host_wakes(void)
{
    return world.wakes;
}

unsigned host_feeds(void)
{
    return world.feeds;
}

#if HAS_REMEMBERED_BASE
uint8_t host_kept(uint8_t place)
{
    return port_kept(place);
}

void host_keep(uint8_t place, uint8_t value)
{
    if (right(place < PORT_KEPT_BYTES)) {
        world.changed[place] = (uint8_t)~value;
    }
}
#endif

#if HAS_LIGHTS
unsigned host_lit(void)
{
    return world.lit;
}
#endif

unsigned host_boot_loads(void)
{
    return world.boot_loads;
}

void host_send_setup(const uint8_t packet[8])
{
    memcpy(world.setup, packet, sizeof world.setup);
    world.setup_full = true;
    world.control_stalled = false;
    world.control_in.full = false;
    world.control_out.full = false;
}

bool host_send_out(const uint8_t *bytes, uint8_t length)
{
    if (world.control_out.full || length > CONTROL_PACKET) {
        return false;
    }
    fill(&world.control_out, bytes, length);
    return true;
}

int host_take_in(uint8_t *bytes)
{
    return world.control_stalled ? HOST_STALL : empty(&world.control_in, bytes);
}

int host_take_packet(uint8_t number, uint8_t *bytes)
{
    struct endpoint *from = endpoint(number);
    if (from->stalled) {
        return HOST_STALL;
    }
    int length = from->open ? empty(&from->in, bytes) : HOST_NAK;
    if (length >= 0) {
        from->toggle = !from->toggle;
    }
    return length;
}

int host_send_packet(uint8_t number, const uint8_t *bytes, uint8_t length)
{
    struct endpoint *to = endpoint(number);
    if (to->stalled) {
        return HOST_STALL;
    }
    if (!to->open || to->out.full || length > room_of(number)) {
        return HOST_NAK;
    }
    fill(&to->out, bytes, length);
    return length;
}

bool host_toggle(uint8_t number)
{
    return endpoint(number)->toggle;
}
