/*
 * A keyboard on a bench: libsimavr's chip, switches between its pins, time and measuring; board.h names
 * the other parts.
 */
#include "board.h"

enum { REGISTERS = 32, RAM = 0x100, UNTOUCHED = 0xA5 };
enum { PINS = PORTS * 8, PATHS = 4096 };

avr_t *avr;
bool pins_moved;

/* --- the switch matrix --------------------------------------------------------------------- */

static struct {
    uint8_t from, to, key;
} paths[PATHS]; /* current can flow from one pin to the other while the key is closed */
static int path_count;
static bool closed[PATHS];
static uint8_t held[PORTS];
static uint8_t grounded[PORTS]; /* by a contact of a knob */

static uint32_t burden[PORTS * 8]; /* the cycles that a pin takes to rise */
static bool has_burdens;
static avr_cycle_count_t low_at[PORTS * 8];

static uint8_t levels[PORTS]; /* what the pins read */
static uint8_t seen[PORTS * 3];

static bool bit(const uint8_t *bytes, int pin)
{
    return bytes[pin / 8] >> (pin % 8) & 1;
}

static bool conducts(int path, const uint8_t *ends, int place)
{
    return closed[paths[path].key] && bit(ends, place);
}

static void spread_supply(uint8_t supplied[PORTS])
{
    bool changed = true;

    memcpy(supplied, held, PORTS);
    while (changed) {
        changed = false;
        for (int path = 0; path < path_count; path++) {
            int to = paths[path].to;
            if (conducts(path, supplied, paths[path].from) && !bit(supplied, to)) {
                supplied[to / 8] |= (uint8_t)(1 << to % 8);
                changed = true;
            }
        }
    }
}

/*
 * A pin reads low if it drives low, or if a path over closed keys leads from it to a pin that does;
 * the path may go over lines that nobody drives. A pin with neither path nor pull-up floats, and is
 * taken as low, so that a forgotten pull-up shows. A pin that the supply holds reads high even where it
 * drives low, and so does what a closed key joins to it, the way in which its current flows.
 */
static void solve_matrix(void)
{
    uint8_t supplied[PORTS];
    uint8_t low[PORTS], high[PORTS];
    bool changed = true;

    for (int port = 0; port < PORTS; port++) {
        uint8_t out = avr->data[PIN_A + 3 * port + 1], value = avr->data[PIN_A + 3 * port + 2];
        low[port] = out & ~value;
        high[port] = value;
    }
    spread_supply(supplied);
    for (int port = 0; port < PORTS; port++) {
        low[port] = (low[port] | grounded[port]) & (uint8_t)~supplied[port];
    }
    leavings_take(low, high);
    while (changed) {
        changed = false;
        for (int path = 0; path < path_count; path++) {
            int from = paths[path].from, to = paths[path].to;
            bool drives = bit(&avr->data[PIN_A], from / 8 * 24 + 8 + from % 8);
            bool stays = drives || bit(supplied, from);
            if (conducts(path, low, to) && !bit(low, from) && !stays) {
                low[from / 8] |= 1 << from % 8;
                changed = true;
            }
        }
    }
    for (int port = 0; port < PORTS; port++) {
        levels[port] = supplied[port] | (high[port] & ~low[port]);
    }
    leavings_read(levels);
}

/* Pins of a port that were low, and that a light or a resistor keeps there for a while. */
static uint8_t burdened(int port)
{
    uint8_t low = 0;

    for (int pin = 8 * port; pin < 8 * port + 8; pin++) {
        if (burden[pin] == 0) {
            continue;
        }
        if (!bit(levels, pin)) {
            low_at[pin] = avr->cycle;
        } else if (avr->cycle - low_at[pin] < burden[pin]) {
            low |= (uint8_t)(1 << pin % 8);
        }
    }
    return low;
}

static uint8_t read_pins(avr_t *chip, avr_io_addr_t address, void *param)
{
    (void)param;
    for (int port = 0; port < PORTS; port++) { /* DDRx and PORTx; PINx holds only what was read */
        uint8_t *registers = &chip->data[PIN_A + 3 * port];
        if (seen[3 * port + 1] != registers[1] || seen[3 * port + 2] != registers[2]) {
            seen[3 * port + 1] = registers[1];
            seen[3 * port + 2] = registers[2];
            pins_moved = true;
        }
    }
    if (pins_moved) {
        solve_matrix();
        pins_moved = false;
    }
    int port = (address - PIN_A) / 3;
    watch_reads(port);
    return chip->data[address] = levels[port] & (uint8_t)~(has_burdens ? burdened(port) : 0);
}

void board_burden(int pin, uint32_t cycles)
{
    burden[pin] = cycles;
    has_burdens = true;
    pins_moved = true;
    idle_forget();
}

int board_path(int key, int from, int to)
{
    if (path_count == PATHS) {
        return -1;
    }
    paths[path_count].key = (uint8_t)key;
    paths[path_count].from = (uint8_t)from;
    paths[path_count].to = (uint8_t)to;
    return path_count++;
}

/* Something holds a pin high, as the supply does. */
void board_hold(int pin, int is_held)
{
    uint8_t mine = (uint8_t)(1 << pin % 8);

    held[pin / 8] = (uint8_t)(is_held ? held[pin / 8] | mine : held[pin / 8] & ~mine);
    pins_moved = true;
    idle_forget();
}

/* A contact joins a pin to ground, or lets it go. */
void board_ground(int pin, int is_grounded)
{
    uint8_t mine = (uint8_t)(1 << pin % 8);

    grounded[pin / 8] = (uint8_t)(is_grounded ? grounded[pin / 8] | mine : grounded[pin / 8] & ~mine);
    pins_moved = true;
    idle_forget();
}

void board_key(int key, int is_closed)
{
    closed[key] = is_closed;
    pins_moved = true;
    idle_forget();
}

/* --- time ---------------------------------------------------------------------------------- */

static uint64_t slept;

void core_stood(uint64_t cycles)
{
    slept += cycles;
}

static void count_sleep(avr_t *chip, avr_cycle_count_t cycles)
{
    (void)chip;
    core_stood(cycles);
    waking_sleeps();
    judge_nap();
    idle_nap();
}

/* simavr asks for the limit only when it has run: its count for this time is cut here. */
bool run_some(uint64_t most)
{
    avr->run_cycle_limit = most < 64 ? (most ? most : 1) : 64;
    if (avr->run_cycle_count > avr->run_cycle_limit) {
        avr->run_cycle_count = avr->run_cycle_limit;
    }
    int state = avr_run(avr);
    return state != cpu_Done && state != cpu_Crashed;
}

/* Let so many cycles pass, or a few more: an instruction is not cut, and a sleep ends when it ends. */
int board_run(uint64_t cycles)
{
    uint64_t end = avr->cycle + cycles;

    while (avr->cycle < end) {
        if (!run_some(end - avr->cycle)) {
            return -1;
        }
        idle_look(end);
    }
    return 0;
}

/* The same, but to the very instruction, and slowly. */
int board_run_exactly(uint64_t cycles)
{
    uint64_t end = avr->cycle + cycles;

    delays_restore();
    while (avr->cycle < end) {
        if (!run_some(1)) {
            return -1;
        }
    }
    return 0;
}

uint64_t board_cycles(void)
{
    return avr->cycle;
}

uint64_t board_slept(void)
{
    return slept;
}

uint32_t board_pc(void)
{
    return avr->pc;
}

/* Put an endless jump at an address: a boot loader that does nothing. */
void board_plant_loop(uint32_t address)
{
    avr->flash[address] = 0xFF;
    avr->flash[address + 1] = 0xCF;
    idle_forget();
}

/* Let a reset start the program there, as the fuse BOOTRST does. */
void board_reset_starts_at(uint32_t address)
{
    avr->reset_pc = address;
}

/* Stop feeding the watchdog, as a firmware that hangs does: go to an endless jump. */
void board_hang(uint32_t address)
{
    board_plant_loop(address);
    avr->pc = address;
}

uint8_t board_peek(uint16_t address)
{
    return avr->data[address];
}

void board_poke(uint16_t address, uint8_t value)
{
    avr->data[address] = value;
    idle_forget();
}

/* Write or read a register as the program would. */
void board_write(uint16_t address, uint8_t value)
{
    const struct wrapped to = {avr->io[AVR_DATA_TO_IO(address)].w.c, avr->io[AVR_DATA_TO_IO(address)].w.param};

    pass_on(&to, address, value);
}

uint8_t board_read(uint16_t address)
{
    const struct reading to = {avr->io[AVR_DATA_TO_IO(address)].r.c, avr->io[AVR_DATA_TO_IO(address)].r.param};

    return pass_on_read(&to, address);
}

/* --- measuring ----------------------------------------------------------------------------- */

static bool drives(int pin)
{
    return bit(&avr->data[PIN_A], pin / 8 * 24 + 8 + pin % 8);
}

/* Run, one instruction at a time, until a pin drives or does not; the cycle, or 0 after a second. */
static uint64_t run_until(int pin, bool wanted)
{
    uint64_t end = avr->cycle + avr->frequency;

    while (drives(pin) != wanted && avr->cycle < end) {
        avr->run_cycle_limit = 1;
        avr_run(avr);
    }
    return avr->cycle < end ? avr->cycle : 0;
}

/* One scan, from the first driven line's low to the last one's release; and the main loop's period. */
int board_measure_scan(int first, int last, uint64_t *scan, uint64_t *period)
{
    run_until(first, true);
    run_until(first, false);
    uint64_t start = run_until(first, true);
    run_until(last, true);
    uint64_t end = run_until(last, false);
    uint64_t again = run_until(first, true);

    *scan = end - start;
    *period = again - start;
    return start != 0 && end != 0 && again != 0 ? 0 : -1;
}

/* What registers and RAM hold at first is chance; so is it after a reset, which leaves them alone. */
static void junk_registers(avr_io_t *io)
{
    memset(io->avr->data, UNTOUCHED, REGISTERS);
}

/* --- building it --------------------------------------------------------------------------- */

static void quiet(avr_t *chip, const int level, const char *format, va_list values)
{
    (void)chip, (void)level, (void)format, (void)values;
}

struct wrapped wrap(uint16_t address, avr_io_write_t write, void *param)
{
    avr_io_addr_t at = AVR_DATA_TO_IO(address);
    struct wrapped old = {avr->io[at].w.c, avr->io[at].w.param};

    avr->io[at].w.c = write;
    avr->io[at].w.param = param;
    return old;
}

void pass_on(const struct wrapped *to, avr_io_addr_t address, uint8_t value)
{
    if (to->write != NULL) {
        to->write(avr, address, value, to->param);
    } else {
        avr->data[address] = value;
    }
}

bool is_162(void)
{
    return strcmp(avr->mmcu, "at90usb162") == 0;
}

int board_open(const char *chip, uint32_t hertz, uint8_t *flash, uint32_t size,
               uint32_t boot_start)
{
    avr_global_logger_set(quiet);
    avr = avr_make_mcu_by_name(chip);
    if (avr == NULL || avr_init(avr) != 0) {
        return -1;
    }
    avr->log = LOG_NONE;
    avr->frequency = hertz;
    avr->sleep = count_sleep;
    memset(avr->flash, 0xFF, avr->flashend + 1);
    avr_loadcode(avr, flash, size, 0);
    avr->codeend = avr->flashend;
    for (int port = 0; port < PORTS; port++) {
        avr_io_addr_t at = AVR_DATA_TO_IO(PIN_A + 3 * port);
        if (avr->io[at].r.c != NULL) {
            avr->io[at].r.c = read_pins;
        }
    }
    cable_open();
    leavings_open(boot_start);
    eeprom_open();
    fuses_open();
    delays_open(size);
    idle_open();
    waking_open();
    judge_open();
    static avr_io_t registers = {.kind = "registers", .reset = junk_registers};
    avr_register_io(avr, &registers);
    junk_registers(&registers);
    memset(avr->data + RAM, UNTOUCHED, avr->ramend + 1 - RAM);
    pins_moved = true;
    return 0;
}

void board_close(void)
{
    avr_terminate(avr);
    free(avr);
}

/* What is in the EEPROM, which outlasts power: to be carried from one chip to the next. */
uint8_t board_eeprom(uint16_t address)
{
    uint8_t value = 0;
    avr_eeprom_desc_t cell = {.ee = &value, .offset = address, .size = 1};

    avr_ioctl(avr, AVR_IOCTL_EEPROM_GET, &cell);
    return value;
}

void board_fill_eeprom(uint16_t address, uint8_t value)
{
    avr_eeprom_desc_t cell = {.ee = &value, .offset = address, .size = 1};

    avr_ioctl(avr, AVR_IOCTL_EEPROM_SET, &cell);
    idle_forget();
}

/* Bytes of RAM between the variables, which end before `address`, and the deepest stack so far. */
int board_ram_untouched(uint16_t address)
{
    int count = 0;

    while (address + count <= avr->ramend && avr->data[address + count] == UNTOUCHED) {
        count++;
    }
    return count;
}
