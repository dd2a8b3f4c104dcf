/*
 * The requests of a serial port (PSTN 1.2 section 6.3), and its endpoints.
 */
#include "serial.h"

#include "answer.h"
#include "interfaces.h"
#include "port.h"
#include "port_memory.h"
#include "sizes.h"

enum {
    SEND_ENCAPSULATED_COMMAND = 0x00,
    GET_ENCAPSULATED_RESPONSE = 0x01,
    SET_LINE_CODING = 0x20,
    GET_LINE_CODING = 0x21,
    SET_CONTROL_LINE_STATE = 0x22,
    SEND_BREAK = 0x23
};
enum { DTR = 1 };
enum { LINE_CODING_BYTES = 7 }; /* speed, stop bits, parity, data bits: PSTN 1.2 table 17 */
enum { IN = 0x80 };

#if HAS_WAY_TO_BOOT_LOADER
/* "Go to the boot loader" is the port closed at this speed: a custom of small boards, no standard. */
enum { LOADER_BAUD = 1200 };
enum { LEAVE_AFTER_MS = 20 }; /* the request that asked has been answered long before */
#endif

static FLASH const uint8_t usual_coding[LINE_CODING_BYTES] = {0x80, 0x25, 0, 0, 0, 0, 8}; /* 9600 8N1 */

static uint8_t coding[LINE_CODING_BYTES];
static bool configured, dtr, begins;
static bool sets_coding; /* the request whose data come next */
static bool waits;     /* what was given may still be in the endpoint */
static uint8_t halted; /* bit n: endpoint n                           */
#if HAS_WAY_TO_BOOT_LOADER
static bool leaves;
static uint8_t asked_ms;
#endif

/* --- endpoints ----------------------------------------------------------------------------- */

/* An endpoint loses what is in it: what was given but not taken is to be told anew. */
static void emptied(uint8_t number)
{
    halted &= (uint8_t)~(1u << number);
    if (number == BULK_IN && waits) {
        waits = false;
        begins = dtr;
    }
}

static void open(uint8_t number)
{
    emptied(number);
    port_endpoint_open(number);
}

void serial_start(void)
{
    for (uint8_t place = 0; place < LINE_CODING_BYTES; place++) {
        coding[place] = usual_coding[place];
    }
#if HAS_WAY_TO_BOOT_LOADER
    leaves = false;
#endif
    serial_configured(false);
}

void serial_configured(bool now)
{
    configured = now;
    dtr = false;
    begins = false;
    waits = false;
    halted = 0;
    if (configured) { /* in the order of their numbers: a chip may give them memory one after another */
        open(BULK_IN);
        open(NOTICES_IN);
        open(BULK_OUT);
    }
}

void serial_fresh(uint8_t interface)
{
    if (interface == CONTROL_INTERFACE) {
        open(NOTICES_IN);
        return;
    }
    open(BULK_IN);
    open(BULK_OUT);
}

bool serial_has(uint8_t address)
{
    return configured &&
           (address == (IN | BULK_IN) || address == (IN | NOTICES_IN) || address == BULK_OUT);
}

bool serial_halted(uint8_t address)
{
    return (halted >> (address & 0x0F) & 1) != 0;
}

void serial_halt(uint8_t address, bool wanted)
{
    uint8_t number = address & 0x0F;

    emptied(number);
    if (wanted) {
        halted = (uint8_t)(halted | 1u << number);
    }
    port_endpoint_stall(number, wanted);
}

void serial_close(void)
{
    if (configured) {
        serial_halt(IN | BULK_IN, true);
        serial_halt(IN | NOTICES_IN, true);
        serial_halt(BULK_OUT, true);
    }
}

/* --- requests ------------------------------------------------------------------------------ */

#if HAS_WAY_TO_BOOT_LOADER
static bool is_loader_speed(void)
{
    return coding[0] == (LOADER_BAUD & 0xFF) && coding[1] == LOADER_BAUD >> 8 &&
           (coding[2] | coding[3]) == 0;
}
#endif

/* PSTN 1.2 section 6.3.12. A program that opens a port raises DTR, and closing it lowers it. */
static void lines_set(bool now)
{
    begins = now && (begins || !dtr);
#if HAS_WAY_TO_BOOT_LOADER
    if (dtr && !now && is_loader_speed()) {
        leaves = true;
        asked_ms = (uint8_t)port_milliseconds();
    }
#endif
    dtr = now;
}

static bool get_line_coding(void)
{
    for (uint8_t place = 0; place < LINE_CODING_BYTES; place++) {
        answer.packet[place] = coding[place];
    }
    return answer_packet(LINE_CODING_BYTES);
}

/*
 * PSTN 1.2 section 3.6.2.1, table 4: commands of a control protocol are required of an abstract control model,
 * as is asking for the answer to one ("Required" from memory; Linux's cdc.h names the table). The interface
 * has no protocol, so that a command is taken and means nothing, and there is never an answer.
 */
static bool set(const struct request *request)
{
    if (request->length_high != 0) {
        return false;
    }
    sets_coding = request->code == SET_LINE_CODING;
    if (sets_coding) {
        return request->length == LINE_CODING_BYTES;
    }
    if (request->code == SEND_ENCAPSULATED_COMMAND) {
        return request->length <= CONTROL_PACKET;
    }
    if (request->length != 0) {
        return false;
    }
    if (request->code == SET_CONTROL_LINE_STATE) {
        lines_set((request->value & DTR) != 0);
        return true;
    }
    return request->code == SEND_BREAK; /* taken, and nothing to do */
}

static bool get(const struct request *request)
{
    if (request->code == GET_ENCAPSULATED_RESPONSE) {
        return answer_packet(0);
    }
    return request->code == GET_LINE_CODING && get_line_coding();
}

bool class_request(const struct request *request)
{
    if (!configured || request->index != CONTROL_INTERFACE || request->index_high != 0) {
        return false;
    }
    if (request->type == CLASS_OF_INTERFACE) {
        return get(request);
    }
    return request->type == CLASS_TO_INTERFACE && set(request);
}

void class_received(const uint8_t *bytes, uint8_t length)
{
    if (!sets_coding || length != LINE_CODING_BYTES) {
        return;
    }
    for (uint8_t place = 0; place < LINE_CODING_BYTES; place++) {
        coding[place] = bytes[place];
    }
}

/* --- the stream ---------------------------------------------------------------------------- */

bool serial_is_open(void)
{
    return dtr;
}

bool serial_begins(void)
{
    bool now = begins;

    begins = false;
    return now;
}

#if HAS_WAY_TO_BOOT_LOADER
bool serial_wants_loader(void)
{
    return leaves && (uint8_t)((uint8_t)port_milliseconds() - asked_ms) > LEAVE_AFTER_MS;
}
#endif

bool serial_free(void)
{
    if (!configured || (halted >> BULK_IN & 1) != 0 || !port_endpoint_free(BULK_IN)) {
        return false;
    }
    waits = false;
    return true;
}

void serial_give(const uint8_t *bytes, uint8_t length)
{
    port_endpoint_give(BULK_IN, bytes, length);
    waits = true;
}

uint8_t serial_take(uint8_t *bytes)
{
    uint8_t length;

    if (!configured || (halted >> BULK_OUT & 1) != 0 ||
        !port_endpoint_take(BULK_OUT, bytes, &length)) {
        return 0;
    }
    return length;
}
