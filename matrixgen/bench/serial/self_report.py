"""What a board answers for itself, in words: the chip, how it runs, and what hangs on its pins.

Fuses, lock bits and reset flags of AVRs: Atmel 7766 and 7707, sections "Memory Programming" and
"MCU Status Register"; those of the AT90USB646 and 1286: 7593 (the sizes of boot sections from
memory). RP2040: its datasheet, sections 2.20.2 (CHIP_ID) and 2.12.8 (CHIP_RESET).
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.boards import Profile
from matrixgen.families import FAMILIES
from matrixgen.model.prose import counted, listed, quoted
from matrixgen.record import Record

USUAL_US = 10
"""A pin that takes longer to rise has more on it than a wire: 80 kohm and 100 pF take 10 us."""

MOST_PPM = 2500
"""How far a full-speed device's clock may be off (USB 2.0 section 7.1.11: 0.25 %)."""

SEEN_PPM = 300
"""How far a measurement may be off: a turn of the main loop at either end of a second."""

MOST_TURN_US = 2000
"""A longer turn misses the time that SET_ADDRESS has (USB 2.0 section 9.2.6.3)."""

AVR_RESETS = ("power-on", "reset pin", "brown-out", "watchdog", "JTAG", "USB")
RP2040_RESETS = {8: "power-on or brown-out", 16: "reset pin", 20: "debugger"}

BOOTRST, WDTON = 1 << 0, 1 << 4
CLOCK_FUSES, RC_OSCILLATOR = 0x0F, 0x02
USED_ENDPOINTS = 0x0F


class Answers(Record, kw_only=True):
    """The lines `fact` and `rises` of a bench.

    `facts` has the words of each fact by its name; `rises` the microseconds that each pin takes to
    rise, None where it does not.
    """

    chip: str
    facts: Mapping[str, tuple[str, ...]]
    rises: Mapping[str, int | None]

    def value(self, name: str) -> bytes | None:
        """Return the bytes of a register; None where the board has not said it as such."""
        words = self.facts.get(name, ())
        try:
            return bytes.fromhex(words[0]) if len(words) == 1 else None
        except ValueError:
            return None

    def numbers(self, name: str) -> tuple[int, ...]:
        """Return the numbers of a measurement; none where the board has not said any."""
        words = self.facts.get(name, ())
        return tuple(map(int, words)) if all(word.isdecimal() for word in words) else ()

    @property
    def ppm(self) -> int | None:
        """How much faster the chip's clock is than the computer's, in parts per million."""
        numbers = self.numbers("clock")
        if len(numbers) != 2 or not numbers[1]:
            return None
        microseconds, frames = numbers
        return round((microseconds / (frames * 1000) - 1) * 1_000_000)

    @property
    def slow_pins(self) -> tuple[str, ...]:
        """The pins that have more on them than a wire."""
        return tuple(pin for pin, us in self.rises.items() if us is None or us > USUAL_US)


def answer_lines(answers: Answers) -> Iterator[str]:
    """Yield what a board answers: one line for the chip, one for how it runs, one for its pins."""
    yield f"chip: {'; '.join([answers.chip, *_chip(answers)])}"
    running = [*_clock(answers), *_turn(answers), *_endpoints(answers)]
    if running:
        yield f"runs: {'; '.join(running)}"
    if answers.rises:
        yield f"pins: {'; '.join(_pins(answers))}"


def answer_warnings(answers: Answers, profile: Profile) -> Iterator[str]:
    """Yield what of a board's answers will do harm, or may."""
    yield from _fuse_warnings(answers, profile)
    if (ppm := answers.ppm) is not None and abs(ppm) > MOST_PPM:
        yield f"the clock is {abs(ppm) / 10_000:.2f} % off, and USB allows 0.25 %"
    if (turn := answers.numbers("turn")) and turn[0] > MOST_TURN_US:
        yield f"a turn of the main loop took {turn[0]} µs: USB allows 2 ms for an address"
    known = [one for one in FAMILIES["avr"].flashes if one.chip == profile.chip.lower()]
    signature = answers.value("signature")
    if known and signature is not None and signature != known[0].signature:
        yield (
            f"the signature of an {profile.chip} is {known[0].signature.hex().upper()}: this is "
            "another chip, or a copy"
        )
    endpoints = answers.value("endpoints")
    if endpoints is not None and endpoints[0] & USED_ENDPOINTS != USED_ENDPOINTS:
        yield "an endpoint of the USB block has no memory: its bit in `endpoints` is 0"
    if _revision(answers) == 1:
        yield (
            "this revision of the chip may not be found on a hub whose other devices are busy "
            "(erratum E5): plug it straight into the computer"
        )


def _fuse_warnings(answers: Answers, profile: Profile) -> Iterator[str]:
    """Yield what the fuses will do to a keyboard; one that is programmed reads 0."""
    fuses = answers.value("fuses")
    if fuses is None or len(fuses) != 3:
        return
    low, high, _ = fuses
    if not high & WDTON:
        yield (
            "the fuse WDTON is programmed: the watchdog only resets, so the keyboard restarts "
            "whenever the computer sleeps"
        )
    entry = profile.boot_loader_entry
    if not high & BOOTRST and entry is not None and entry.kind == "jump":
        yield (
            "the fuse BOOTRST is programmed: a boot loader that a key starts may return to the "
            "keyboard at once; if it does, use the reset button"
        )
    start = _boot_section(profile, high >> 1 & 3)
    if entry is not None and entry.kind == "jump" and entry.address != start:
        yield (
            f"the fuses BOOTSZ put the boot loader at {start}, but the profile `{profile.name}` "
            f"says {entry.address}: a key cannot start it, unless you correct `boot_loader_entry`"
        )
    if low & CLOCK_FUSES == RC_OSCILLATOR:
        yield (
            "the clock fuses select the internal RC oscillator, which USB cannot run from: the "
            "firmware switches to the crystal, and the boot loader may not"
        )


def _boot_section(profile: Profile, size: int) -> int:
    least = 512 if profile.flash_bytes <= 32 * 1024 else 1024
    return profile.flash_bytes - (least << 3 - size)


def _chip(answers: Answers) -> Iterator[str]:
    if (signature := answers.value("signature")) is not None:
        yield f"signature {signature.hex().upper()}"
    if (number := answers.value("chip")) is not None:
        shown = {1: "B0 or B1", 2: "B2"}.get(_revision(answers) or 0, "unknown")
        yield f"revision {shown} (CHIP_ID {number.hex().upper()})"
    fuses = answers.value("fuses")
    if fuses is not None and len(fuses) == 3:
        yield "fuses low {:02X}, high {:02X}, extended {:02X}".format(*fuses)
    if (lock := answers.value("lock")) is not None:
        yield f"lock {lock.hex().upper()}"
    if causes := _resets(answers):
        yield f"last reset by {listed(causes)}"


def _revision(answers: Answers) -> int | None:
    number = answers.value("chip")
    return number[0] >> 4 if number is not None and len(number) == 4 else None


def _resets(answers: Answers) -> list[str]:
    value = answers.value("reset")
    if value is None:
        return []
    flags = int.from_bytes(value, "big")
    if len(value) == 1:
        named = [name for bit, name in enumerate(AVR_RESETS) if flags >> bit & 1]
        return named or ["a cause that the boot loader has cleared"]
    by_watchdog = any(answers.value("watchdog") or b"")
    named = [name for bit, name in RP2040_RESETS.items() if flags >> bit & 1]
    return ["watchdog"] if by_watchdog else named


def _clock(answers: Answers) -> Iterator[str]:
    ppm = answers.ppm
    if ppm is None:
        return
    yield (
        f"clock within {SEEN_PPM} ppm of the computer's"
        if abs(ppm) <= SEEN_PPM
        else f"clock {ppm:+d} ppm against the computer's"
    )


def _turn(answers: Answers) -> Iterator[str]:
    if turn := answers.numbers("turn"):
        yield f"longest turn {turn[0]} µs"


def _endpoints(answers: Answers) -> Iterator[str]:
    if (value := answers.value("endpoints")) is not None:
        ready = [str(number) for number in range(8) if value[0] >> number & 1]
        yield f"endpoints with memory: {' '.join(ready) or 'none'}"


def _pins(answers: Answers) -> Iterator[str]:
    slow = answers.slow_pins
    usual = [us for pin, us in answers.rises.items() if pin not in slow and us is not None]
    if usual:
        least, most = min(usual), max(usual)
        span = f"{most} µs" if least == most else f"{least} to {most} µs"
        yield f"{counted(len(usual), 'pin')} {'rises' if len(usual) == 1 else 'rise'} in {span}"
    late = [f"`{pin}` takes {us} µs" for pin in slow if (us := answers.rises[pin]) is not None]
    never = [pin for pin in slow if answers.rises[pin] is None]
    if late:
        yield f"{listed(late)}: something hangs on it, or a long wire"
    if never:
        yield f"{quoted(never)} never: an LED, a resistor, ground or a closed key is on it"
