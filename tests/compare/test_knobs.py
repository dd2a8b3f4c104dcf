"""What changes of knobs ask for, stated by hand; whether the image is another one is built."""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import Examined, examine_text

PAD = """\
keyboard "Pad"
  controller atmega32u4

plate
  line A B
  knob dial at 3, 0.5
  knob jog  at 4, 0.5

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
  knob dial on PB2 PB3
  knob jog  on PB4 PB5 with 2 states a step

layer base
  dial.left = Up  dial.right = Down
  jog.left = Left  jog.right = Right
  B = hold layer more

layer more
  dial.left = PageUp
"""

EDITS: dict[str, tuple[str, bool, list[tuple[str, str]]]] = {
    "another name": ("cosmetic", False, [("dial", "wheel")]),
    "two names exchanged": ("reflash", True, [("dial.", "x."), ("jog.", "dial."), ("x.", "jog.")]),
    "statements in another order": (
        "cosmetic",
        False,
        [
            ("  knob dial on PB2 PB3\n", ""),
            ("a step\n", "a step\n  knob dial on PB2 PB3\n"),
        ],
    ),
    "turned round": ("reflash", True, [("PB2 PB3", "PB3 PB2")]),
    "on another pin": ("solder", True, [("PB2 PB3", "PB2 PD7")]),
    "other states": ("reflash", True, [("with 2", "with 8")]),
    "usual states written out": (
        "cosmetic",
        False,
        [("PB2 PB3", "PB2 PB3 with 4 states a step")],
    ),
    "at another place": ("solder", False, [("at 3, 0.5", "at 3.5, 0.5")]),
    "another step": ("reflash", True, [("PageUp", "Home")]),
    "a step more": ("reflash", True, [("PageUp", "PageUp  jog.left = Home")]),
    "gone": (
        "solder",
        True,
        [
            ("  knob dial at 3, 0.5\n", ""),
            ("  knob dial on PB2 PB3\n", ""),
            ("  dial.left = Up  dial.right = Down\n", ""),
            ("  dial.left = PageUp\n", "  A = PageUp\n"),
        ],
    ),
}


def edited(replaced: list[tuple[str, str]]) -> str:
    text = PAD
    for old, new in replaced:
        assert old in text
        text = text.replace(old, new)
    return text


def examined(text: str) -> Examined:
    found = examine_text("pad.keys", text, Path())
    assert found.design, [one.message for one in found.findings]
    return found


def sources(of: Examined) -> dict[str, str]:
    """Return the C of a keyboard, without its comments, which have names."""
    (mounted,) = of.mounted
    tree = firmware_tree(firmware_view(mounted, "pad.keys"))
    return {
        name: "".join(part.partition("*/")[2] for part in ("*/" + text.decode()).split("/*"))
        for name, text in tree.items()
        if name.endswith((".c", ".h"))
    }


@pytest.mark.parametrize("name", EDITS)
def test_a_change_of_a_knob_is_told_as_what_it_is(name: str) -> None:
    work, is_other, replaced = EDITS[name]
    old, new = examined(PAD), examined(edited(replaced))
    for one, other in ((old, new), (new, old)):
        found = compared(one, other)
        told = [(change.kind, change.text) for change in found.changes]
        assert found.kind == work, told
        assert any(change.needs_image for change in found.changes) == is_other, told
    assert (sources(old) != sources(new)) == is_other


def test_what_a_renamed_knob_does_is_no_news() -> None:
    found = compared(examined(PAD), examined(edited([("dial", "wheel"), ("PageUp", "Home")])))
    assert [change.text for change in found.changes] == [
        "layer `more`: `wheel.left` changed from `PageUp` to `Home`",
        "knob `dial` is now called `wheel`",
    ]
