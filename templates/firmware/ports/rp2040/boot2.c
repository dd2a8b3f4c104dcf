/*
 * The second stage of booting, datasheet section 2.8.1.3.1: the boot ROM copies the first 256 bytes
 * of flash to RAM and runs them there, if the last 4 are the CRC-32/MPEG-2 of the first 252.
 *
 * From here on the flash is read as memory, with the plain serial read command 03h that every flash
 * chip has; 16 KiB of cache hide that it is slow. The registers are those of the SSI, section 4.10.13:
 * 08 SSIENR, 14 BAUDR, 00 CTRLR0, 04 CTRLR1, F4 SPI_CTRLR0.
 *
 *   BAUDR       4           a bit every 4 cycles: 31.25 MHz from 125 MHz
 *   CTRLR0      001F0300    serial frames, 32 bits each; send, then receive ("EEPROM read")
 *   CTRLR1      0           one frame at a time
 *   SPI_CTRLR0  03000218    command 03h of 8 bits, then 24 address bits, all on one line
 *
 * Change an instruction, and the checksum changes: the tests compute it and say what it must be.
 */
#define BARE(section_name) __attribute__((naked, used, noinline, section(section_name)))

void boot2(void);

BARE(".boot2") void boot2(void)
{
    __asm__ volatile(
        ".syntax unified\n"
        "ldr r0, 1f\n"
        "movs r1, #0\n"
        "str r1, [r0, #0x08]\n"
        "str r1, [r0, #0x04]\n"
        "movs r2, #4\n"
        "str r2, [r0, #0x14]\n"
        "ldr r2, 2f\n"
        "str r2, [r0, #0x00]\n"
        "ldr r2, 3f\n"
        "movs r3, #0xF4\n"
        "str r2, [r0, r3]\n"
        "movs r1, #1\n"
        "str r1, [r0, #0x08]\n"

        /* The vector table is the program's first word: its stack, then its reset handler. */
        "ldr r0, 4f\n"
        "ldr r1, 5f\n"
        "str r0, [r1]\n"
        "ldmia r0!, {r1, r2}\n"
        "msr msp, r1\n"
        "bx r2\n"

        ".balign 4, 0\n"
        "1: .word 0x18000000\n" /* the SSI                          */
        "2: .word 0x001F0300\n" /* CTRLR0                           */
        "3: .word 0x03000218\n" /* SPI_CTRLR0                       */
        "4: .word 0x10000100\n" /* the vector table, after this     */
        "5: .word 0xE000ED08\n" /* VTOR, section 2.4.8              */

        ".org boot2 + 252, 0\n"
        ".word 0x49CD9EC5\n"); /* the checksum */
}
