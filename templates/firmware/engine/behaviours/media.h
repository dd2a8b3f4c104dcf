/*
 * ACTION_MEDIA: a media key, down for as long as the key is.
 *
 * low byte: its number, which is never 0.
 */
#ifndef BEHAVIOUR_MEDIA_H
#define BEHAVIOUR_MEDIA_H

#include <stdint.h>

#include "media_report.h"
#include "sizes.h"

#if HAS_MEDIA

static inline void media_down(uint8_t number)
{
    media_report_press(number);
}

/* Number 0 is none: another key still holds it. */
static inline void media_up(uint8_t number)
{
    media_report_lift(number);
}

#endif

#endif
