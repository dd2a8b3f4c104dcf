/*
 * ACTION_START_BOOT_LOADER: the keyboard leaves for the chip's boot loader, from which there is no release.
 */
#ifndef BEHAVIOUR_START_BOOT_LOADER_H
#define BEHAVIOUR_START_BOOT_LOADER_H

#include "port.h"
#include "sizes.h"

#if HAS_START_BOOT_LOADER

static inline void start_boot_loader_down(void)
{
    port_boot_loader();
}

#endif

#endif
