/*
 * Where this chip keeps constants: on a computer, in plain memory.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

#endif
