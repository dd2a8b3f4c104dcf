/*
 * ACTION_START_BOOT_LOADER: the keyboard leaves for the chip's boot loader, from which there is no release.
 */
#ifndef BEHAVIOUR_START_BOOT_LOADER_H
#define BEHAVIOUR_START_BOOT_LOADER_H

#include "port.h"
#include "sizes.h"

static inline void start_boot_loader_down(void)
{
    if (BOOT_LOADER_KEYS != 0) {
        port_boot_loader();
    }
}

#endif
