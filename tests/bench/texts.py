"""What typing in turn costs, and how fast it is: `python -m tests.bench.texts [PART...]`.

The parts are `sizes`, `speed` and `check`; without any, all. The keyboard is that of
`tests.bench.behaviours`, with one key that types a text. References in the same run: the same
keyboard without it, two reports a stroke at the host's rate, and a file without `computer`.
"""

from __future__ import annotations

import statistics
import sys
import tempfile
from collections.abc import Callable
from pathlib import Path

from matrixgen.emit.firmware_view import firmware_view
from matrixgen.families import CompilerKind
from tests.bench.behaviours import Size, Text, late, mounted_on, size_of, text_of
from tests.bench.check_speed import with_byte_code
from tests.bench.chip import BOARDS, PINS, SOURCE, compiled
from tests.bench.processes import process_cpu_seconds
from tests.emulators.usb_host import UsbHost
from tests.examples.shipped import COMPILERS

KEY, LETTERS = "K60", 100
PLAIN: Text = ("E", "", "")
POLLS_MS, PACES_MS = (1, 8), (1, 4, 8)
ROUNDS = 41


def typing(letters: int, pace_ms: int = 4) -> Text:
    return (f'type "{"ab" * (letters // 2)}"', f"  computer us\n  pace {pace_ms} ms\n", "")


def sizes() -> None:
    print("64 keys, 4 layers: bytes of flash and RAM, and what is added")
    variants = {
        "plain": PLAIN,
        "two keys in turn": ("Ctrl+K, then Enter", "", ""),
        "a text of 2 letters": typing(2),
        f"a text of {LETTERS + 2}": typing(LETTERS + 2),
    }
    print(f"{'':<22}" + "".join(f"{chip + ' ' + kind:>22}" for chip in PINS for kind in COMPILERS))
    found: dict[str, list[Size]] = {}
    for name, variant in variants.items():
        found[name] = [
            size_of(mounted_on(chip, text_of(chip, variant)), kind)
            for chip in PINS
            for kind in COMPILERS
        ]
        both = zip(found[name], found["plain"], strict=True)
        rows = (f"{s.flash - p.flash:>+14,} {s.ram - p.ram:>+7,}" for s, p in both)
        print(f"{name:<22}" + "".join(rows))
    print(f"{'of it plain':<22}" + "".join(f"{s.flash:>14,} {s.ram:>7,}" for s in found["plain"]))
    short, long = found["a text of 2 letters"], found[f"a text of {LETTERS + 2}"]
    each = [(b.flash - a.flash) / LETTERS for a, b in zip(short, long, strict=True)]
    print(f"{'bytes a stroke':<22}" + "".join(f"{one:>14.2f} {'':>7}" for one in each))


def strokes_a_second(kind: CompilerKind, pace_ms: int, poll_ms: int) -> float:
    """Return how many strokes of a long text a host gets in a second, after the first."""
    mounted = mounted_on("atmega32u4", text_of("atmega32u4", typing(2000, pace_ms)))
    _, made = compiled(firmware_view(mounted, SOURCE), kind)
    with BOARDS["avr"](made, mounted) as chip:
        host = UsbHost(chip)
        host.enumerate()
        host.set_idle(0)
        chip.close_key(KEY)
        host.poll(2)
        reports, polls = 0, 2000 // poll_ms
        for _ in range(polls):
            chip.wait(poll_ms)
            reports += chip.in_(1) is not None
        return reports / 2 / (polls * poll_ms / 1000)


def speed() -> None:
    print("ATmega32U4: strokes a second, of two reports each")
    for kind in COMPILERS:
        for poll_ms in POLLS_MS:
            told = [
                f"pace {pace} ms: {strokes_a_second(kind, pace, poll_ms):.0f}" for pace in PACES_MS
            ]
            most = 1000 / poll_ms / 2
            print(f"  {kind}, asked every {poll_ms} ms (at most {most:.0f}): {', '.join(told)}")
    for kind in COMPILERS:
        with_it, without = (
            late("atmega32u4", text_of("atmega32u4", variant), kind)
            for variant in (typing(LETTERS), PLAIN)
        )
        print(f"  {kind}, a plain key's closure to report, median and worst: {with_it}", end="")
        print(f" with a text, {without} without")


def check() -> None:
    """Processes take turns; a file with a layout, without letters and with, beside one without."""
    plain = text_of("atmega32u4", PLAIN)
    texts = {
        "without `computer`": plain,
        "with `computer us`": plain.replace("\nplate", "  computer us\n\nplate", 1),
        "with `computer de`": plain.replace("\nplate", "  computer de\n\nplate", 1),
        "with a text of 100": text_of("atmega32u4", typing(LETTERS)),
    }
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        environment = with_byte_code(folder / "byte-code")
        taken: dict[str, list[float]] = {title: [] for title in texts}
        for number in range(ROUNDS + 2):
            for place, (title, text) in enumerate(texts.items()):
                path = folder / f"{place}.keys"
                path.write_text(text, encoding="utf-8")
                seconds = process_cpu_seconds(
                    "-m", "matrixgen", "check", str(path), environment=environment
                )
                if number > 1:
                    taken[title].append(seconds)
    first = statistics.median(taken["without `computer`"])
    print(f"`check` of 64 keys, CPU time of cold processes, median of {ROUNDS}:")
    for title, seconds in taken.items():
        middle = statistics.median(seconds)
        print(f"  {title:<20} {middle * 1e3:6.1f} ms  {middle / first - 1:+6.1%}")


PARTS: dict[str, Callable[[], None]] = {"sizes": sizes, "speed": speed, "check": check}


def main() -> None:
    for part in sys.argv[1:] or PARTS:
        PARTS[part]()


if __name__ == "__main__":
    main()
