/*
 * Turns of the main loop in which nothing can happen, jumped over. A turn begins where the watchdog is
 * fed. Where one has left the program's place, every register, the whole RAM and all that the chip gives
 * to the world as they were, the next ones do the same, until the host or a finger does something, or a
 * millisecond is over: all that the firmware asks the timer for (tick.c). So whole turns are left out, and
 * time goes on by as much.
 *
 * The millisecond is counted off here as the firmware counts it. Where one has begun since the turn asked
 * the timer, the next turn is the one that notices: it is not left out. A nap ends the counting: then no
 * turn is left out any more. Of simavr's own timers, the starts of frame are told at the end of what is left out.
 */
#include "board.h"

enum { TCCR1B = 0x81, TCNT1L = 0x84, TCNT1H = 0x85, ICR1H = 0x87, MEMORY = 0x1000, SREG = 8 };
enum { EECR = 0x3F, EEPE = 1 << 1, SOFI = 1 << 2, WAKEUPI = 1 << 4, PRESCALED = 64 };

static struct {
    uint8_t data[MEMORY], sreg[SREG];
    avr_flashaddr_t pc;
    uint64_t cycle; /* 0: something has happened that memory does not show */
} before;

static bool begins;   /* a turn, with the next instruction */
static bool in_phase; /* `counted` is the firmware's own   */
static bool may_leave_out = true;
static uint16_t counted;
static struct wrapped old_tccr1b;
static uint64_t left_out;

/* --- where a turn begins --------------------------------------------------------------------- */

static avr_cycle_count_t turn_begins(avr_t *chip, avr_cycle_count_t when, void *param)
{
    (void)chip, (void)when, (void)param;
    begins = true;
    return 0;
}

/* By a timer, because simavr runs up to its next timer: so the run stops after this instruction. */
static int note_feeding(avr_io_t *io, uint32_t what, void *param)
{
    (void)param;
    if (what == AVR_IOCTL_WATCHDOG_RESET) {
        avr_cycle_timer_register(io->avr, 1, turn_begins, NULL);
    }
    return -1; /* it is for simavr's watchdog */
}

/* --- time ------------------------------------------------------------------------------------ */

static void write_tccr1b(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    (void)chip, (void)param;
    in_phase = value != 0;
    counted = 0;
    pass_on(&old_tccr1b, address, value);
}

static uint16_t timer(void)
{
    avr_io_addr_t at = AVR_DATA_TO_IO(TCNT1L);
    uint8_t low = avr->io[at].r.c(avr, TCNT1L, avr->io[at].r.param);

    return (uint16_t)(low | avr->data[TCNT1H] << 8);
}

/* The cycles until the timer's last count of this millisecond; 0 where it is not the one of last time. */
static uint64_t left_of_millisecond(void)
{
    uint16_t counts = (uint16_t)(avr->frequency / 1000 / PRESCALED), now = timer();
    bool another = false;

    while ((uint16_t)(now - counted) >= counts) {
        counted += counts;
        another = true;
    }
    return another ? 0 : (uint64_t)(counts - 1 - (uint16_t)(now - counted)) * PRESCALED;
}

/* --- what a turn has changed ----------------------------------------------------------------- */

/* Nothing of simavr's is under way whose end the firmware could notice. */
static bool parts_rest(void)
{
    bool frames_are_told = (avr->data[UDINT] & (SOFI | WAKEUPI)) == (SOFI | WAKEUPI);

    return frames_are_told && (avr->data[EECR] & EEPE) == 0;
}

/* Here a part of the memory may differ. */
static void excuse(int from, int to)
{
    memcpy(&before.data[from], &avr->data[from], (size_t)(to + 1 - from));
}

/*
 * But the timer's own registers, and those that a call may lose (r18 to r27, r30 and r31 in the compilers'
 * convention): a turn calls functions, so that nothing outlives it there. `every_turn.py` shows that.
 */
static bool nothing_has_changed(void)
{
    excuse(TCNT1L, ICR1H);
    excuse(18, 27);
    excuse(30, 31);
    return before.pc == avr->pc && memcmp(before.sreg, avr->sreg, SREG) == 0 &&
           memcmp(before.data, avr->data, avr->ramend + 1) == 0;
}

static void remember(void)
{
    memcpy(before.data, avr->data, avr->ramend + 1);
    memcpy(before.sreg, avr->sreg, SREG);
    before.pc = avr->pc;
}

static void leave_out(uint64_t turn, uint64_t most)
{
    avr->cycle += most / turn * turn;
    left_out += most / turn;
    avr_ioctl(avr, AVR_IOCTL_WATCHDOG_RESET, NULL);
    avr_cycle_timer_cancel(avr, turn_begins, NULL);
}

void idle_look(uint64_t end)
{
    if (!begins) {
        return;
    }
    begins = false;
    uint64_t left = left_of_millisecond();
    if (may_leave_out && in_phase && parts_rest() && before.cycle != 0 && nothing_has_changed()) {
        uint64_t turn = avr->cycle - before.cycle;
        uint64_t run = end > avr->cycle ? end - avr->cycle : 0;
        leave_out(turn, run < left ? run : left);
    } else {
        remember();
    }
    before.cycle = avr->cycle;
}

void idle_forget(void)
{
    before.cycle = 0;
}

void idle_nap(void)
{
    in_phase = false;
}

/* Run every turn from now on. */
void board_leave_nothing_out(void)
{
    may_leave_out = false;
}

uint64_t board_left_out(void)
{
    return left_out;
}

void idle_open(void)
{
    static avr_io_t watching = {.kind = "idle", .ioctl = note_feeding};

    avr_register_io(avr, &watching);
    old_tccr1b = wrap(TCCR1B, write_tccr1b, NULL);
}
