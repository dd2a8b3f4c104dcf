/*
 * Where constants are kept: a page has one memory for all.
 */
#ifndef PORT_MEMORY_H
#define PORT_MEMORY_H

#define FLASH

/* What cannot be with the tables that belong to this engine: web_faults() counts it. */
void web_fault(void);
#define PORT_FAULT() web_fault()

#endif
