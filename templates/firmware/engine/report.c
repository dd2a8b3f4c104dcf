/*
 * An event only sets bits, or only clears bits, or clears after it has set; and it is given before the
 * next one is taken. So the host has not heard of what is down as it is if, and only if, a bit of it has
 * changed.
 */
#include "report.h"

#include "outlet.h"
#include "sizes.h"

enum { ERROR_ROLL_OVER = 0x01, BOOT_USAGES = 6 };

static uint8_t modifiers_down;
static uint8_t modifiers_once; /* down besides */

/* What is down is where the report has it: usage u is bit (u & 7) of byte u / 8. */
static uint8_t report[REPORT_BYTES];
static uint8_t *const usages_down = &report[BOOT_REPORT_BYTES];

/* In boot protocol two states can make the same report, so that the last one is kept. */
static uint8_t boot_told[BOOT_REPORT_BYTES];
static bool told_boot; /* the protocol of the last report                               */
static bool stale;     /* what is down has changed since                                */
static bool doubtful;  /* the host did not listen since                                 */
static bool told_down; /* while doubtful: the last report had something down            */

static uint8_t all_modifiers(void)
{
    return ONCE_KEYS != 0 ? modifiers_down | modifiers_once : modifiers_down;
}

static bool something_is_down(void)
{
    uint8_t any = all_modifiers();

    for (uint8_t place = 0; place < USAGE_BYTES; place++) {
        any |= usages_down[place];
    }
    return any != 0;
}

void report_start(void)
{
    modifiers_down = 0;
    modifiers_once = 0;
    for (uint8_t place = 0; place < USAGE_BYTES; place++) {
        usages_down[place] = 0;
    }
    stale = false;
    told_boot = false;
    doubtful = true;
    told_down = false;
}

static uint8_t *byte_of(uint8_t usage)
{
    return &usages_down[usage >> 3];
}

static uint8_t bit_of(uint8_t usage)
{
    return (uint8_t)(1u << (usage & 7));
}

static void change(uint8_t *byte, uint8_t value)
{
    if (*byte != value) {
        *byte = value;
        stale = true;
    }
}

/* A modifier that is down by one of the two is not changed by the other. */
static void change_modifiers(uint8_t *modifiers, uint8_t value)
{
    uint8_t all = all_modifiers();

    *modifiers = value;
    change(&all, all_modifiers());
}

void report_press(uint8_t usage, uint8_t modifiers)
{
    change_modifiers(&modifiers_down, modifiers_down | modifiers);
    if (usage != 0) {
        change(byte_of(usage), *byte_of(usage) | bit_of(usage));
    }
}

void report_lift(uint8_t usage, uint8_t modifiers)
{
    change_modifiers(&modifiers_down, modifiers_down & (uint8_t)~modifiers);
    change(byte_of(usage), *byte_of(usage) & (uint8_t)~bit_of(usage)); /* bit 0 is never set */
}

void report_once(uint8_t modifiers)
{
    change_modifiers(&modifiers_once, modifiers);
}

/* Write the usages of the boot report, and return how many there are. */
static uint8_t write_first_usages(uint8_t *out)
{
    uint8_t count = 0;

    for (uint8_t place = 0; place < USAGE_BYTES; place++) {
        uint8_t found = (uint8_t)(place << 3);
        for (uint8_t bits = usages_down[place]; bits != 0; bits >>= 1, found++) {
            if ((bits & 1) != 0) {
                if (count < BOOT_USAGES) {
                    out[count] = found;
                }
                count++;
            }
        }
    }
    return count;
}

static void write_boot(uint8_t *out)
{
    for (uint8_t place = 0; place < BOOT_REPORT_BYTES; place++) {
        out[place] = 0;
    }
    out[0] = all_modifiers();
    uint8_t *usages = &out[2];
    if (write_first_usages(usages) > BOOT_USAGES) {
        for (uint8_t place = 0; place < BOOT_USAGES; place++) {
            usages[place] = ERROR_ROLL_OVER;
        }
    }
}

uint8_t report_write(bool boot, uint8_t *out)
{
    write_boot(out);
    if (boot) {
        return BOOT_REPORT_BYTES;
    }
    for (uint8_t place = 0; place < USAGE_BYTES; place++) {
        out[BOOT_REPORT_BYTES + place] = usages_down[place];
    }
    return REPORT_BYTES;
}

/* Bring `boot_told` up to date; true if that changed it. */
static bool boot_report_differs(void)
{
    uint8_t differs = 0;

    for (uint8_t place = 0; place < BOOT_REPORT_BYTES; place++) {
        differs |= report[place] ^ boot_told[place];
        boot_told[place] = report[place];
    }
    return differs != 0;
}

bool report_give(void)
{
    bool boot = outlet_boot_protocol();
    bool in_doubt = doubtful || boot != told_boot;

    if (!stale && !in_doubt) {
        return false;
    }
    /* In doubt, and in another protocol, the host hears of all that is not plainly nothing. */
    bool due = !in_doubt || told_down || something_is_down();
    write_boot(report);
    if (boot && !boot_report_differs() && !in_doubt) {
        due = false;
    }
    told_boot = boot;
    stale = false;
    doubtful = false;
    told_down = false;
    if (!due) {
        return false;
    }
    outlet_give(report, boot ? BOOT_REPORT_BYTES : REPORT_BYTES);
    return true;
}

void report_doubt(void)
{
    if (!doubtful) {
        doubtful = true;
        told_down = something_is_down();
    }
}
