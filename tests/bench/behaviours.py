"""What each behaviour costs: `python -m tests.bench.behaviours`.

The 64 keys of `tests.bench.chip`, with one key more of each kind: flash and RAM beside the plain
keyboard's of the same run, on both chips, by both compilers. Then all of them together with eight
layers, and on the emulated ATmega32U4 the time of one turn of the main loop: at rest, and while a
press is undecided and as many events wait behind it as can; and how long after the closure of a
plain key its report is there. References in the same run: the plain keyboard, a USB frame of 1,000
us.
"""

from __future__ import annotations

import statistics
from dataclasses import dataclass

from matrixgen.boards import Mounted, builtin_profile
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import CompilerKind
from matrixgen.source import read_design
from tests.bench.chip import BOARDS, LAYERS, PHASES, PINS, SOURCE, compiled, latencies
from tests.bench.synthetic import keyboard_text
from tests.emulators.avr.board import AvrBoard
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS

Text = tuple[str, ...]
"""What stands on the key K60, in the block `keyboard`, and after the file."""

VARIANTS: dict[str, Text] = {
    "media key": ("PlayPause", "", ""),
    "a pointer's key": ("PointerLeft", "", ""),
    "once layer": ("once layer one", "", ""),
    "once modifiers": ("once Shift", "", ""),
    "once, with an end": ("once Shift", "  once lasts 2000 ms\n", ""),
    "unlatch layers": ("unlatch layers", "", ""),
    "change base": ("change base to one", "", "\nlayer one\n  K60 = change base to base\n"),
    "tap and hold": ("tap E, hold layer one", "", ""),
    "keys in turn": ("Ctrl+K, then Enter", "", ""),
    "first, second": ("first E, second F", "", ""),
    "with a modifier": ("E, with Shift F", "", ""),
    "keys together": ("E", "", "\nlayer one\n  together K10 K11 = Esc\n"),
    "the other hand": ("tap E, hold layer one, other hand", "", ""),
    "a joint layer": ("E", "", "\nlayer four while two and three are on\n  K0 = F4\n"),
    "a press time": ("E", "  debounce 5 ms, press 2 ms\n", ""),
}
WAITING = 16
"""Events that can wait: `ROOM` in engine/events.c."""


@dataclass(frozen=True)
class Size:
    flash: int
    ram: int


def text_of(controller: str, variant: Text) -> str:
    key, setting, rest = variant
    text = keyboard_text(8, 8, PINS[controller]).replace("atmega32u4", controller) + LAYERS
    text = text.replace("K61 = F", "K61 = hold-one").replace("K62 = G", "K62 = latch-two")
    text = text.replace("K63 = H", "K63 = latch-three").replace("K60 = E", f"K60 = {key}")
    if rest.startswith("\nlayer one"):
        text = text.replace("layer one\n", rest[1:], 1)
        rest = ""
    head, _, tail = text.partition("\nplate")
    return f"{head}{setting}\nplate{tail}{rest}"


def mounted_on(controller: str, text: str) -> Mounted:
    design, findings = read_design(SOURCE, text)
    profile = builtin_profile(controller)
    assert design is not None and profile is not None, findings
    (mounting,) = design.mountings
    return Mounted(design.keyboard, mounting, profile)


def size_of(mounted: Mounted, kind: CompilerKind) -> Size:
    _, made = compiled(firmware_view(mounted, SOURCE), kind)
    return Size(made.flash_used, made.ram_used)


def everything(controller: str) -> str:
    """Return eight layers, and a key or more of every behaviour."""
    more = [f"  K{n} = F{n + 1}  K{n + 8} = Ctrl+F{n + 1}" for n in range(8)]
    layers = [f"\nlayer {name}\n{more[place]}\n" for place, name in enumerate(("five", "six"))]
    layers.append("\nlayer four while two and three are on\n  K0 = F4\n")
    layers.append("\nlayer seven\n  K16 = change base to base\n")
    text = text_of(controller, ("E", "  once lasts 2000 ms\n  debounce 5 ms, press 1 ms\n", ""))
    for key, action in {
        "K0 = A": "tap A, hold layer one, after 2000 ms",
        "K1 = B": "tap B, hold Ctrl, by press, other hand",
        "K2 = C": "once Shift",
        "K3 = D": "once layer one",
        "K4 = E": "PlayPause",
        "K5 = F": "Sleep",
        "K16 = A": "change base to seven",
        "K17 = B": "once layer five",
        "K18 = C": "hold layer six",
        "K19 = D": "E, with Shift F",
        "K20 = E": "first E, second hold layer one",
    }.items():
        text = text.replace(f"{key} ", f"{key.split()[0]} = {action} ", 1)
    return text + "".join(layers) + "  together K25 K26 within 200 ms = Esc\n"


def turns(mounted: Mounted, kind: CompilerKind) -> tuple[float, float]:
    """Return, in us, the longest turn of the main loop: at rest, and while all waits that can."""
    _, made = compiled(firmware_view(mounted, SOURCE), kind)
    with BOARDS["avr"](made, mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        host.poll(5)
        rest = longest_turn(chip, mounted)
        early, late = ([f"K{n}" for n in numbers] for numbers in (range(24, 31), range(40, 48)))
        for key, closed in [(key, True) for key in early] + [("K0", True)]:
            (chip.close_key if closed else chip.open_key)(key)
            host.poll(120)
        for key in early:
            chip.open_key(key)
            host.poll(2)
        for key in late:
            chip.close_key(key)
            host.poll(2)
        assert not host.poll(10), "the press was decided"
        return rest, longest_turn(chip, mounted)


def late(controller: str, text: str, kind: CompilerKind) -> str:
    """Return the median and the worst time from closure to report of keys that are plain."""
    mounted = mounted_on(controller, text.replace(", press 1 ms", ""))
    _, made = compiled(firmware_view(mounted, SOURCE), kind)
    with BOARDS["avr"](made, mounted) as chip:
        taken = latencies(chip, PHASES["avr"], [f"K{number}" for number in range(19, 56)])
    return f"{statistics.median(taken):.0f} and {max(taken):.0f} us"


def longest_turn(chip: AvrBoard, mounted: Mounted) -> float:
    return max(chip.scan_cycles(mounted)[1] for _ in range(20)) * 1000 / chip.cycles_per_ms


def main() -> None:
    print("64 keys, 4 layers; flash and RAM in bytes, and what one key of a kind adds")
    print(f"{'':<20}" + "".join(f"{chip + ' ' + kind:>22}" for chip in PINS for kind in COMPILERS))
    plain = {
        (chip, kind): size_of(mounted_on(chip, text_of(chip, ("E", "", ""))), kind)
        for chip in PINS
        for kind in COMPILERS
    }
    print(f"{'plain':<20}" + "".join(f"{s.flash:>14,} {s.ram:>7,}" for s in plain.values()))
    for name, variant in VARIANTS.items():
        sizes = {
            (chip, kind): size_of(mounted_on(chip, text_of(chip, variant)), kind)
            for chip, kind in plain
        }
        row = (
            f"{s.flash - plain[a].flash:>+14,} {s.ram - plain[a].ram:>+7,}"
            for a, s in sizes.items()
        )
        print(f"{name:<20}" + "".join(row))
    whole = {
        (chip, kind): size_of(mounted_on(chip, everything(chip)), kind) for chip, kind in plain
    }
    row = (f"{s.flash:>14,} {s.ram:>7,}" for s in whole.values())
    print(f"{'all, 8 layers':<20}" + "".join(row))
    for kind in COMPILERS:
        rest, busy = turns(mounted_on("atmega32u4", everything("atmega32u4")), kind)
        print(
            f"ATmega32U4, {kind}: a turn of the main loop {rest:.0f} us at rest, {busy:.0f} us "
            f"with {WAITING} events that wait; a USB frame is 1,000 us"
        )
        plain_one, all_of_them = text_of("atmega32u4", ("E", "", "")), everything("atmega32u4")
        print(
            f"  closure to report, median and worst: {late('atmega32u4', all_of_them, kind)}; "
            f"plain: {late('atmega32u4', plain_one, kind)}"
        )


if __name__ == "__main__":
    main()
