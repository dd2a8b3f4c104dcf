/*
 * FLASH marks a constant that stays in program memory, and a pointer to one. Both are address space 1
 * of the compilers for AVR; each has a word of its own for it.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#ifdef __clang__
#define FLASH __attribute__((address_space(1)))
#else
#define FLASH __flash
#endif

/* What cannot be with the tables that belong to this engine: nobody here to be told. */
#define PORT_FAULT() ((void)0)

/* How many registers there are for the bench firmware to tell of. */
enum { PORT_REGISTERS = 5 };

#endif
