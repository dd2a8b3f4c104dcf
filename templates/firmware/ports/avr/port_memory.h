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

#endif
