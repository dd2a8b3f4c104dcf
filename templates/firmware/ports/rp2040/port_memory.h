/*
 * Where this chip keeps constants: in the flash that it sees as memory, like any other.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

#endif
