"""What a rehearsal says the computer writes is what X11 writes for the same keys."""

from __future__ import annotations

import random
from collections.abc import Iterator
from unicodedata import normalize

import pytest

from matrixgen.layouts import KeyStroke, layout_named, layout_names
from matrixgen.layouts.marks import is_dead_mark
from matrixgen.layouts.strokes import System
from matrixgen.model import Keyboard
from matrixgen.rehearse.happening import Happening, TextShown
from matrixgen.rehearse.play import play
from matrixgen.rehearse.script import read_script
from tests.amounts import amount
from tests.computer.pads import CAPS, HELD, WRITING, key_of, text_pad, there, whole_pad
from tests.computer.pangrams import ALPHABETS, PANGRAMS
from tests.computer.x11_live import has_caps_lock, x11_writes

KEYS = amount("MATRIXGEN_TYPED_KEYS", suite=60, long=1000)
CAPS_LOCK = KeyStroke(0x39)


def played(keyboard: Keyboard, script: str) -> list[Happening]:
    steps, found = read_script("steps", script, keyboard)
    assert found == []
    return [*play(keyboard, steps)]


def text_of(found: list[Happening]) -> str:
    text = next((one for one in found if isinstance(one, TextShown)), None)
    return text.before + text.after if text else ""


def at_random(name: str, count: int) -> Iterator[KeyStroke]:
    """Yield strokes: each key with nothing, Shift, AltGr or both, and Caps Lock now and then.

    After a dead key comes no other one, since X11 may wait for a third key then and layouts know
    pairs alone, and nothing behind AltGr: with Caps Lock, X11 has symbols there without pairs.
    """
    locks = has_caps_lock(name)
    chance, layout, after_dead = random.Random(name), there(name, "linux"), False
    keys = [usage for usage in WRITING if usage in layout.usages]
    for _ in range(count):
        stroke = KeyStroke(chance.choice(keys), chance.choice((0x00, 0x00, 0x02, 0x40, 0x42)))
        if locks and chance.random() < 0.1:
            yield CAPS_LOCK
            continue
        is_dead = any(is_dead_mark(layout.mark_of(stroke, caps)) for caps in (False, True))
        if not after_dead or not (is_dead or stroke.modifiers & HELD["altgr"]):
            yield stroke
            after_dead = is_dead


def steps_of(stroke: KeyStroke) -> str:
    held = [name for name, bit in HELD.items() if stroke.modifiers & bit]
    key = CAPS if stroke == CAPS_LOCK else key_of(stroke.usage)
    return " ".join([*(f"+{one}" for one in held), key, *(f"-{one}" for one in held), "wait 10"])


@pytest.mark.few(24)
@pytest.mark.parametrize("name", layout_names())
def test_any_keys_write_what_x11_writes(name: str) -> None:
    strokes = [*at_random(name, KEYS)]
    written = text_of(played(whole_pad(name, "linux"), "\n".join(map(steps_of, strokes))))
    assert normalize("NFC", written) == normalize("NFC", x11_writes(name, strokes))


@pytest.mark.parametrize("name", PANGRAMS)
def test_a_pangram_has_its_alphabet(name: str) -> None:
    lower = PANGRAMS[name].replace("İ", "i").lower()
    assert not {letter for letter in ALPHABETS[name] if letter not in lower}


@pytest.mark.few(8)
@pytest.mark.parametrize("system", [None, "linux", "windows", "macos"])
@pytest.mark.parametrize("name", PANGRAMS)
def test_a_text_is_written_whether_caps_lock_is_on_or_not(name: str, system: System | None) -> None:
    layout, text = layout_named(name, system), PANGRAMS[name]
    if layout is None or not layout.is_known:
        return
    whole = f"say wait {40 * len(text)}"
    found = played(text_pad(text, name, system), f"{whole}\n{CAPS} {whole}\n{CAPS} {whole}")
    assert text_of(found) == 3 * text


def test_a_text_that_is_long_is_written_to_its_end_though_the_script_is_over() -> None:
    assert text_of(played(text_pad(PANGRAMS["de"], "de"), "say")) == PANGRAMS["de"]
