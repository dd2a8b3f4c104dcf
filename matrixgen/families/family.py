"""What is to be known of a chip family to check a profile of it and to build for it."""

from __future__ import annotations

from typing import Literal

from matrixgen.record import Record

CompilerKind = Literal["gcc", "clang"]
ImageKind = Literal["hex", "uf2"]

COMMON_FLAGS = (
    "-std=gnu11",
    "-Os",
    "-ffreestanding",
    "-Wall",
    "-Wextra",
    "-Werror",
    "-Wconversion",
    "-ffunction-sections",
    "-fdata-sections",
    "-fno-jump-tables",  # GCC's need a helper of libgcc, which nothing links
    "-nostdlib",
    "-Iengine",
    "-Iusb",
    "-Iport",
    "-Itables",
    "-Wl,-T,port/link.ld",
    "-Wl,--gc-sections",
)
"""Flags of every compiler, run at the top of a firmware tree. Each `Makefile.j2` says the same."""


class PinPlace(Record):
    """Where a pin is in the chip's registers: its bit, and its port's letter, or "" for no port."""

    port: str
    bit: int


class ChipFlash(Record):
    """What a serial boot loader has to know of a chip, by its name in lower case.

    `signature` is its three bytes as the datasheet has them, `page_bytes` what is written at once.
    """

    chip: str
    signature: bytes
    page_bytes: int


class Cycles(Record, kw_only=True):
    """What the firmware costs in cycles of the emulated chip, as built by GCC; an upper bound.

    In one turn of the main loop each driven line costs `line`, by how many ports its sensed lines
    are on, from one on; the last of them holds for more. The wait until the lines have settled
    comes on top, and takes `wait` and `wait_a_port` for each of those ports if it is to be shorter.
    All else of the turn costs `turn`. From the reading in which a key is first seen closed to its
    report it is `press`, without that wait. Where keys type in turn, each of these two is longer by
    `in_turn`. A turn is longer by `pointer` where keys move one, by `light` for each light, and
    where there are knobs by `knobs`, and by `knob` for each of them: by `knobs_wait` too where what
    a press does is decided later, which their steps wait for, and by `knobs_between` for each line
    where they are read between lines. Besides a turn, `knobs_amid` may pass between two readings of
    knobs while keys are decided and reported, and `knobs_sets` where keys are one action together:
    upper bounds for Clang too, whose turns are longer. `tests/circuit` measures them, and
    `tests/emulators` those of knobs.
    """

    line: tuple[int, ...]
    wait: int
    wait_a_port: int
    turn: int
    press: int
    in_turn: int
    knobs: int
    knob: int
    knobs_wait: int
    knobs_between: int
    knobs_amid: int
    knobs_sets: int
    light: int
    pointer: int

    def of_line(self, ports: int) -> int:
        """Return what each driven line costs, with sensed lines on so many ports."""
        return self.line[min(ports, len(self.line)) - 1]

    def least_wait(self, ports: int) -> int:
        """Return what the shortest wait until the lines have settled takes."""
        return self.wait + self.wait_a_port * ports


class Family(Record, kw_only=True):
    """A chip family, named as its folder under `templates/firmware/ports`.

    Pins: `pin_pattern` is a regular expression with the groups `port` and `bit`, of which the first
    may be missing, and `pin_example` a name that fits it.

    Chips: `chips` has the part numbers, in lower case, that the port builds for, and `clocks_hz`
    the clocks that it can make 48 MHz of, none for any clock.

    Boot loader: `rom_entry` says how the one in mask ROM is entered whatever the flash holds, as a
    sentence, and is None where the chips have none there. `double_reset` is whether the firmware
    can tell a second reset from a first one: not where a reset starts the boot loader first.

    Compilers: `gcc` is GCC's command and `package` where Debian keeps it. `gcc_flags` and
    `clang_flags` may hold `{chip}`, the chip's name in lower case.

    Memory: `keeps_bytes` is whether the port keeps a few bytes over a power cut. `flash_start` is
    the address of the flash and `ram_start` the first that is none;
    `stack_bytes` of RAM are kept for the stack.

    Pins: `pulls_up_while_low` is whether a driven pin's own pull-up stays on while it is low, and
    `port_ampere` what all pins of a port may give or take together, None where that is not limited.

    Time: a driven line is low for `low_ns` before the sensed lines are read; `cycles` is what the
    firmware costs.

    Images: the first of `images` is the one that a maker loads; `uf2_id` is the family's number in
    UF2 files, if it has one, and `uf2_board_id` what its boot ROM calls itself on its drive.

    Loading: `flashes` has what loading by a serial line needs, chip by chip.
    """

    name: str
    pin_pattern: str
    pin_example: str
    chips: tuple[str, ...]
    clocks_hz: tuple[int, ...]
    rom_entry: str | None
    double_reset: bool
    gcc: str
    package: str
    gcc_flags: tuple[str, ...]
    clang_flags: tuple[str, ...]
    keeps_bytes: bool
    flash_start: int
    ram_start: int
    stack_bytes: int
    pulls_up_while_low: bool
    port_ampere: float | None
    low_ns: int
    cycles: Cycles
    images: tuple[ImageKind, ...]
    uf2_id: int | None
    uf2_board_id: str | None
    flashes: tuple[ChipFlash, ...]

    def place_of(self, pin: str) -> PinPlace | None:
        """Return where a pin is, by its name in the datasheet; None where it is no pin's name."""
        import re  # a check of a built-in controller needs none of this

        found = re.fullmatch(self.pin_pattern, pin)
        return PinPlace(found["port"] or "", int(found["bit"])) if found else None

    def flash_of(self, chip: str) -> ChipFlash | None:
        """Return what loading needs to know of a chip, whatever its capitals; None if unknown."""
        return next((one for one in self.flashes if one.chip == chip.lower()), None)

    def flags(self, kind: CompilerKind, chip: str) -> tuple[str, ...]:
        """Return the flags that one compiler needs to build for `chip`, in lower case."""
        own = self.gcc_flags if kind == "gcc" else self.clang_flags
        return (*(flag.format(chip=chip) for flag in own), *COMMON_FLAGS)
