#include "bench/bench.h"

int main(void)
{
    bench_start();
    for (;;) {
        bench_step();
    }
}
