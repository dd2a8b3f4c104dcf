/*
 * The engine's layers, and which of them are on: a page shows that, and no chip asks. So the question is
 * put here, with the whole of the engine's file around it, and the images of chips are what they were: a
 * function there that nobody calls changes how compilers lay out the ones that are called.
 */
#include "layers.c"

#include "layers_told.h"

uint32_t layers_told_on(void)
{
#if HAS_LAYERS
    return layers_on();
#else
    return 0;
#endif
}

uint32_t layers_told_base(void)
{
#if HAS_CHANGE_BASE
    return lowest;
#else
    return 0;
#endif
}
