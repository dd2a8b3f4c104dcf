/*
 * The engine's layers, and which of them are on: a page shows that, and no chip asks. So the question is
 * put here, with the whole of the engine's file around it, and the images of chips are what they were: a
 * function there that nobody calls changes how compilers lay out the ones that are called.
 */
#include "layers.c"

#include "layers_told.h"

uint32_t layers_told_on(void)
{
    return layers_on();
}

uint32_t layers_told_base(void)
{
    return lowest;
}
