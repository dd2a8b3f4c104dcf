/*
 * Reads what is set once in the chip, and what it says of its endpoints: the signature, fuses and lock bits by LPM
 * (7766 and 7707, section "Self-Programming the Flash", reading the fuse and lock bits and the signature
 * row from software), CFGOK (section "Endpoint management").
 */
#include "port.h"

#if HAS_SELF_REPORT

#include "registers.h"
#include "start.h"

enum { ENDPOINTS = 4 };
enum { OF_LOCK_AND_FUSES = 1 << BLBSET | 1 << SPMEN, OF_SIGNATURE = 1 << SIGRD | 1 << SPMEN };

/* Where LPM finds what, with these bits of SPMCSR; highest byte first. */
struct place {
    uint8_t bits, address;
};

static FLASH const struct place signature[] = {{OF_SIGNATURE, 0}, {OF_SIGNATURE, 2}, {OF_SIGNATURE, 4}};
static FLASH const struct place fuses[] = {
    {OF_LOCK_AND_FUSES, 0}, /* low      */
    {OF_LOCK_AND_FUSES, 3}, /* high     */
    {OF_LOCK_AND_FUSES, 2}, /* extended */
};
static FLASH const struct place lock[] = {{OF_LOCK_AND_FUSES, 1}};

static FLASH const char signature_text[] = "signature";
static FLASH const char fuses_text[] = "fuses";
static FLASH const char lock_text[] = "lock";
static FLASH const char reset_text[] = "reset";
static FLASH const char endpoints_text[] = "endpoints";

/* LPM within three cycles of the write; interrupts are off. It reads only, since SPM does not follow. */
static uint8_t read(uint8_t bits, uint8_t address)
{
    uint16_t where = address;
    uint8_t value;

    __asm__ volatile("out %1, %2\n\tlpm %0, Z"
                     : "=r"(value)
                     : "n"(IN_OUT(SPMCSR_ADDRESS)), "r"(bits), "z"(where)
                     : "memory");
    return value;
}

static void read_all(struct port_register *found, FLASH const struct place *places, uint8_t count)
{
    found->length = count;
    for (uint8_t place = 0; place < count; place++) {
        found->bytes[place] = read(places[place].bits, places[place].address);
    }
}

/* Bit n: endpoint n has the memory that it was given. */
static uint8_t configured_endpoints(void)
{
    uint8_t found = 0;

    for (uint8_t number = 0; number < ENDPOINTS; number++) {
        UENUM = number;
        if ((UESTA0X & (1 << CFGOK)) != 0) {
            found = (uint8_t)(found | 1u << number);
        }
    }
    return found;
}

static void one_byte(struct port_register *found, FLASH const char *name, uint8_t value)
{
    found->name = name;
    found->length = 1;
    found->bytes[0] = value;
}

void port_register(uint8_t number, struct port_register *found)
{
    switch (number) {
    case 0:
        found->name = signature_text;
        read_all(found, signature, sizeof signature / sizeof *signature);
        break;
    case 1:
        found->name = fuses_text;
        read_all(found, fuses, sizeof fuses / sizeof *fuses);
        break;
    case 2:
        found->name = lock_text;
        read_all(found, lock, sizeof lock / sizeof *lock);
        break;
    case 3:
        one_byte(found, reset_text, reset_cause);
        break;
    default:
        one_byte(found, endpoints_text, configured_endpoints());
        break;
    }
}

/* The high byte could be of another frame than the low one. */
uint16_t port_frame(void)
{
    uint8_t low, high;

    do {
        high = UDFNUMH;
        low = UDFNUML;
    } while (UDFNUMH != high);
    return (uint16_t)(low | (uint16_t)high << 8);
}

#endif
