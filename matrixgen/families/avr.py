"""8-bit AVR chips with a USB device controller."""

from matrixgen.families.family import ChipFlash, Cycles, Family

AVR = Family(
    name="avr",
    pin_pattern=r"P(?P<port>[A-F])(?P<bit>[0-7])",
    pin_example="PD0",
    chips=("at90usb1286", "at90usb162", "at90usb646", "atmega16u4", "atmega32u4"),
    clocks_hz=(8_000_000, 16_000_000),
    rom_entry=None,
    double_reset=False,
    gcc="avr-gcc",
    package="gcc-avr",
    gcc_flags=(
        "-mmcu={chip}",
        "-nostartfiles",
        "-Wl,--relax",
        "-flto",
        "-Wl,-u,main",
        "-Wno-uninitialized",  # said of a table that no code reads any more; all others look for it
    ),
    clang_flags=(
        "-target",
        "avr-freestanding-none",
        "-mcpu={chip}",
        "-Xclang",
        "-Oz",  # `zig cc` itself takes it for -Os
        "-fno-sanitize=all",  # its checks at run time need a library
        "-Wno-avr-rtlib-linking-quirks",  # no start-up code will be linked: we have our own
    ),
    keeps_bytes=True,  # in the EEPROM
    flash_start=0,
    ram_start=0x800000,  # where the linkers put an AVR's data space
    stack_bytes=128,  # its deepest use on the emulated chip is 90, with knobs, sets and media keys
    port_ampere=0.1,  # Atmel 7766, notes to table 29-1, second-hand: groups of ports have it
    pulls_up_while_low=False,  # the port bit that makes it low turns the pull-up off
    low_ns=500,
    cycles=Cycles(
        line=(27, 28, 29, 31, 77),
        wait=20,
        wait_a_port=4,
        turn=270,
        press=1300,
        in_turn=100,
        knobs=170,
        knob=40,
        knobs_wait=200,
        knobs_between=60,
        knobs_amid=1300,
        knobs_sets=700,
        light=25,
        pointer=190,
    ),
    images=("hex",),
    uf2_id=None,
    uf2_board_id=None,
    flashes=(  # avr-libc's header of each chip: SIGNATURE_0 to SIGNATURE_2, SPM_PAGESIZE
        ChipFlash("at90usb1286", b"\x1e\x97\x82", 256),
        ChipFlash("at90usb162", b"\x1e\x94\x82", 128),
        ChipFlash("at90usb646", b"\x1e\x96\x82", 256),
        ChipFlash("atmega16u4", b"\x1e\x94\x88", 128),
        ChipFlash("atmega32u4", b"\x1e\x95\x87", 128),
    ),
)
