#ifndef PINS_H
#define PINS_H

/* Every line, and every pin that nobody uses: input with pull-up. */
void pins_start(void);

/* Every port as after a reset: inputs without pull-up. */
void pins_stop(void);

#endif
