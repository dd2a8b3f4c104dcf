/*
 * The main loop, for ever.
 */
#include "loop.h"

int main(void)
{
    loop_start();
    for (;;) {
        loop_step();
    }
}
