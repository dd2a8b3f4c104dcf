/*
 * Where this chip keeps constants. If it reads its flash like any other memory, FLASH is empty. If it
 * needs another instruction for it, FLASH is the compiler's word for that address space (see
 * ports/avr/port_memory.h).
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

/* What cannot be with the tables that belong to this engine: nobody here to be told. */
#define PORT_FAULT() ((void)0)

/* How many registers there are for the bench firmware to tell of. */
enum { PORT_REGISTERS = 1 };

#endif
