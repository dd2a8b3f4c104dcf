/*
 * What the judges share, and what the rest of the harness tells them.
 */
#ifndef JUDGE_H
#define JUDGE_H

#include "board.h"

enum { USBE = 1 << 7, FRZCLK = 1 << 5, PLLE = 1 << 1, PLOCK = 1 << 0, ADDEN = 1 << 7 };
enum { UDIEN = 0xE2, UDADDR = 0xE3, UEINTX = 0xE8, UENUM = 0xE9, UERST = 0xEA, UECONX = 0xEB };
enum { UECFG0X = 0xEC, UECFG1X = 0xED, UESTA0X = 0xEE, UEDATX = 0xF1, UEBCLX = 0xF2 };

__attribute__((format(printf, 1, 2))) void judge_finds(const char *format, ...);

void judge_endpoints_open(void);
void judge_endpoints_start(void);
void judge_block_open(void);
void judge_block_start(void);
void judge_chip_open(void);
void judge_chip_start(void);
void judge_chip_at_attach(void);
void judge_clock_open(void);
void judge_clock_start(void);
void judge_clock_at_attach(void);

#endif
