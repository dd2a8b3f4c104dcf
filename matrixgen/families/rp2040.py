"""The RP2040."""

from matrixgen.families.family import Cycles, Family

RP2040 = Family(
    name="rp2040",
    pin_pattern=r"GP(?:IO)?(?P<port>)(?P<bit>[12]?[0-9])",
    pin_example="GPIO5",
    chips=("rp2040",),
    clocks_hz=(),
    rom_entry=(
        "Whatever the chip holds, its boot loader also starts if the boot button is held down "
        "while it is\nplugged in: the button pulls the strap QSPI_SS low (RP2040 datasheet, "
        '"Bootrom").'
    ),
    double_reset=True,
    gcc="arm-none-eabi-gcc",
    package="gcc-arm-none-eabi",
    gcc_flags=(
        "-mcpu=cortex-m0plus",
        "-mthumb",
        "-nostartfiles",
        "-Wl,--fatal-warnings",
        "-Wl,--build-id=none",
    ),
    clang_flags=(
        "-target",
        "thumb-freestanding-eabi",
        "-mcpu=cortex_m0plus",
        "-fno-sanitize=all",
        "-fno-unwind-tables",
        "-fno-asynchronous-unwind-tables",
    ),
    keeps_bytes=False,  # they would have to go into the flash that the program runs from
    flash_start=0x10000000,  # RP2040 datasheet section 2.2, address map
    ram_start=0x20000000,
    stack_bytes=1024,
    port_ampere=None,
    pulls_up_while_low=True,  # the pad keeps it on
    low_ns=1000,
    cycles=Cycles(
        line=(222,),
        wait=0,
        wait_a_port=0,
        turn=640,
        press=2200,
        in_turn=200,
        knobs=200,
        knob=20,
        knobs_wait=240,
        knobs_between=50,
        knobs_amid=1000,
        knobs_sets=400,
        light=55,
        pointer=240,
    ),
    images=("uf2", "hex"),
    uf2_id=0xE48BFF56,  # the registered ID in the UF2 specification's list of families
    uf2_board_id="RPI-RP2",  # INFO_UF2.TXT of the boot ROM (pico-bootrom-rp2040, virtual_disk.c)
    flashes=(),
)
