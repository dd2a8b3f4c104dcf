/*
 * Where this chip keeps constants: in the flash that it sees as memory, like any other.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

/* What cannot be with the tables that belong to this engine: nobody here to be told. */
#define PORT_FAULT() ((void)0)

/* How many registers there are for the bench firmware to tell of. */
enum { PORT_REGISTERS = 3 };

#endif
