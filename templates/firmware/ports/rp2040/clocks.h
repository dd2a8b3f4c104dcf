#ifndef CLOCKS_H
#define CLOCKS_H

/* What the clocks run at from clocks_start() on; the crystal is one of 12 MHz. */
#define CRYSTAL_MHZ 12
#define CLOCK_MHZ 125

/* The crystal, 125 MHz for the core, 48 MHz for USB. Takes 64 ms; the watchdog must run. */
void clocks_start(void);

/*
 * For a nap: the core at 48 MHz and its PLL off; USB, the timer and the watchdog's tick go on as they
 * were. And back again, which takes as long as the PLL needs to lock.
 */
void clocks_slow(void);
void clocks_fast(void);

/* Put blocks into reset, or take them out and wait until they are. */
void blocks_reset(unsigned blocks);
void blocks_release(unsigned blocks);

#endif
