/*
 * What compilers call for large initialisers and copies, even freestanding ones.
 */
#include <stddef.h>

void *memset(void *place, int value, size_t count);
void *memcpy(void *restrict to, const void *restrict from, size_t count);

void *memset(void *place, int value, size_t count)
{
    unsigned char *bytes = place;

    while (count-- != 0) {
        *bytes++ = (unsigned char)value;
    }
    return place;
}

void *memcpy(void *restrict to, const void *restrict from, size_t count)
{
    unsigned char *target = to;
    const unsigned char *source = from;

    while (count-- != 0) {
        *target++ = *source++;
    }
    return to;
}
