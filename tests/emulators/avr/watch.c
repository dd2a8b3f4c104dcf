/*
 * For how long a port is not read, at most: of knobs, if no line of the matrix is sensed there.
 */
#include "board.h"

static int watched = PORTS; /* none is */
static uint64_t last, longest;

/* From now on, and every turn of the main loop runs. */
void board_watch(int port)
{
    board_leave_nothing_out();
    watched = port;
    last = avr->cycle;
    longest = 0;
}

/* In cycles. */
uint64_t board_longest_unread(void)
{
    return longest;
}

void watch_reads(int port)
{
    if (port != watched) {
        return;
    }
    if (avr->cycle - last > longest) {
        longest = avr->cycle - last;
    }
    last = avr->cycle;
}
