/*
 * What is on for the next key only: layers, and modifiers.
 *
 * A `once` key holds its layer or modifiers while it is down. If nothing was typed meanwhile, they are
 * then *armed*: on until the next key that types. A second press *locks* them if they are armed and no
 * other `once` key was pressed between: on until the next press. All that is armed ends together, ONCE_MS
 * after the last `once` key was let go: it waits for one key, which is to have all of it. Once used,
 * modifiers stay until the key that used them is up, so that it repeats as it began, or until another key
 * types, which they do not colour.
 */
#ifndef ONCE_H
#define ONCE_H

#include <stdbool.h>
#include <stdint.h>

#include "sizes.h"

#if HAS_ONCE

/* Nothing is on. */
void once_start(void);

/* A `once` key goes down or up: its layer's bit, or its modifiers. */
void once_press(layer_set layers, uint8_t modifiers);
void once_release(layer_set layers, uint8_t modifiers, uint16_t at_ms);

/* A key has gone down that sends a usage. */
void once_used(key_number key);

/* Any key goes up. */
void once_key_up(key_number key);

#if HAS_ONCE_END
/* Let what is armed end if it is due at `at_ms`; true if it was. */
bool once_ends(uint16_t at_ms);
#endif

#if HAS_UNLATCH_LAYERS && HAS_ONCE_LAYER
/* No layer is on whose key is up. */
void once_unlatch(void);
#endif

#if HAS_WITH_MODIFIER
/* The modifiers that are on for the next key, those of held `once` keys among them. */
uint8_t once_modifiers(void);
#endif

#if HAS_ONCE_LAYER
/* The layers that are on. */
layer_set once_layers(void);
#endif

#endif

#endif
