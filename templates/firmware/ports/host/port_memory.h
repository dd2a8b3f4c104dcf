/*
 * Where this chip keeps constants: on a computer, in plain memory.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

/* What cannot be with the tables that belong to this engine: host_faults() counts it. */
void host_fault(void);
#define PORT_FAULT() host_fault()

/* How many registers there are for the bench firmware to tell of. */
enum { PORT_REGISTERS = 2 };

#endif
