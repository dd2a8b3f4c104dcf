/*
 * What waking from power-down costs, and what two wakers at once leave behind; simavr has neither.
 *
 *   7766 section 7.3 and table 6-4: the crystal starts anew, 16 Ki of its cycles with the usual fuses,
 *   before the program goes on; the watchdog, which has an oscillator of its own, counts on meanwhile
 *   7766 section 8.4, WDIF: cleared when its own interrupt is taken, or by writing it as 1
 */
#include "board.h"

enum { WDTCSR = 0x60, WDIF = 1 << 7 };
enum { CRYSTAL_STARTS = 16384 };

static bool asleep;
static struct wrapped old_wdtcsr;

static avr_int_vector_t *watchdog(void)
{
    int place = 0;

    while (avr->interrupts.vector[place]->vector != (is_162() ? 13 : 12)) {
        place++;
    }
    return avr->interrupts.vector[place];
}

static void write_wdtcsr(avr_t *chip, avr_io_addr_t address, uint8_t value, void *param)
{
    uint8_t kept = chip->data[address] & WDIF & (uint8_t)~value;

    (void)param;
    pass_on(&old_wdtcsr, address, value & (uint8_t)~WDIF);
    if ((value & WDIF) != 0) {
        avr_clear_interrupt(chip, watchdog());
    }
    chip->data[address] = (chip->data[address] & (uint8_t)~WDIF) | kept;
}

void waking_sleeps(void)
{
    asleep = true;
}

static void interrupt_taken(struct avr_irq_t *irq, uint32_t number, void *param)
{
    (void)irq, (void)param;
    if (number != 0 && asleep) {
        asleep = false;
        avr->cycle += CRYSTAL_STARTS;
        core_stood(CRYSTAL_STARTS);
        avr->run_cycle_count = 1; /* what was due meanwhile comes now */
    }
}

void waking_open(void)
{
    old_wdtcsr = wrap(WDTCSR, write_wdtcsr, NULL);
    avr_irq_register_notify(avr_get_interrupt_irq(avr, AVR_INT_ANY) + AVR_INT_IRQ_RUNNING,
                            interrupt_taken, NULL);
}
