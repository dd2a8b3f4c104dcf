#ifndef LAYERS_TOLD_H
#define LAYERS_TOLD_H

#include <stdint.h>

/* What web_layers() and web_base() return. */
uint32_t layers_told_on(void);
uint32_t layers_told_base(void);

#endif
