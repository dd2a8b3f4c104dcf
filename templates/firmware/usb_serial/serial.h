/*
 * A serial port over USB: the abstract control model, CDC 1.2 with PSTN 1.2 (numbers of their sections
 * from memory). Its speed and parity mean nothing, but for the speed that asks for the boot loader.
 */
#ifndef SERIAL_H
#define SERIAL_H

#include <stdbool.h>
#include <stdint.h>

#include "class.h"
#include "sizes.h"

/* No host was ever there. */
void serial_start(void);

/* The bus was reset, or the host has configured the device, or taken that back. */
void serial_configured(bool configured);

/* The host has taken the configuration back, if there was one: no endpoint answers any more. */
void serial_close(void);

/* An interface set anew (USB 2.0 section 9.4.10): its endpoints are empty and not halted. */
void serial_fresh(uint8_t interface);

/* Whether there is such an endpoint; whether it is halted; let it be, or no longer. */
bool serial_has(uint8_t address);
bool serial_halted(uint8_t address);
void serial_halt(uint8_t address, bool wanted);

/* A program has the port open, as far as DTR tells. */
bool serial_is_open(void);

/* True once: the port was opened since, or something that was given may be lost. */
bool serial_begins(void);

#if HAS_WAY_TO_BOOT_LOADER
/* True from when the host has asked for the boot loader, and has had the time to see that it may. */
bool serial_wants_loader(void);
#endif

/* Room for the next packet; give it. Less than ENDPOINT_PACKET bytes, so that no packet is a full one. */
bool serial_free(void);
void serial_give(const uint8_t *bytes, uint8_t length);

/* Take what has come, up to MEDIA_PACKET bytes; returns how many, 0 where there is nothing. */
uint8_t serial_take(uint8_t *bytes);

#endif
