/*
 * What the host writes: lines, of which `?` is the one that means something.
 */
#ifndef COMMANDS_H
#define COMMANDS_H

void commands_start(void);

/* Look once for what has come. */
void commands_step(void);

#endif
