/*
 * From the second stage of booting to main(), and the vectors.
 *
 * Interrupts are masked for good. One that is enabled only ends a `wfi` (nap.c), without its handler;
 * should one run nevertheless, it takes the enabling back, so that it runs once.
 */
#include <stdint.h>

#include "registers.h"

enum { EXCEPTIONS = 15, INTERRUPTS = 32 };

struct vectors {
    void *stack;
    void (*exceptions[EXCEPTIONS])(void);
    void (*interrupts[INTERRUPTS])(void);
};

extern uint32_t data_in_flash[], data_start[], data_end[], bss_start[], bss_end[], stack_top[];

int main(void);
void start_reset(void);
void start_fault(void);
void start_wake(void);

extern const struct vectors vectors;

__attribute__((used, section(".vectors"))) const struct vectors vectors = {
    .stack = stack_top,
    .exceptions = {start_reset, [1 ... EXCEPTIONS - 1] = start_fault},
    .interrupts = {[0 ... INTERRUPTS - 1] = start_wake},
};

/* A fault: the watchdog restarts the chip. */
void start_fault(void)
{
    for (;;) {
    }
}

void start_wake(void)
{
    NVIC_ICER = ~0u;
}

/* After a reset by the watchdog it may still run. */
void start_reset(void)
{
    __asm__ volatile("cpsid i" ::: "memory");
    CLEAR(WATCHDOG_CTRL) = WATCHDOG_ENABLE;
    const uint32_t *from = data_in_flash;
    for (uint32_t *to = data_start; to != data_end; to++) {
        *to = *from++;
    }
    for (uint32_t *to = bss_start; to != bss_end; to++) {
        *to = 0;
    }
    (void)main();
    start_fault();
}
