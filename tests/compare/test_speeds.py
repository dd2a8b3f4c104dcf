"""Speeds of a pointer and wheels in two files, and as facts of one."""

from __future__ import annotations

import pytest

from tests.compare.truth import compare_texts, lines_of
from tests.language.whole import completed

HEAD = 'keyboard "Heron 4"\n  controller stick-32u4\n'
LAYER = "\nlayer base\n  A = PointerLeft  B = WheelUp\n"
GROWS = "  pointer 40 to 900 steps a second within 700 ms\n"
DEFAULT = "  pointer 40 to 1000 steps a second within 800 ms\n"


def text(settings: str, layer: str = LAYER) -> str:
    return completed(f"{HEAD}{settings}{layer}")


@pytest.mark.parametrize(
    ("old", "new", "said"),
    [
        ("", GROWS, "the default to 40 to 900 steps a second within 700 ms"),
        (GROWS, "  pointer 300 steps a second\n", "within 700 ms to 300 steps a second"),
        ("", DEFAULT, "within 800 ms: the same image"),
        ("", "  wheel 9 steps a second\n", "the speed of the wheels changed from the default to 9"),
    ],
)
def test_another_speed_asks_for_a_reflash_unless_the_image_has_it_already(
    old: str, new: str, said: str
) -> None:
    changes = compare_texts(text(old), text(new)).changes
    (change,) = [one for one in changes if "speed" in one.text]
    assert said in change.text
    assert change.kind == ("cosmetic" if said.endswith("same image") else "reflash")


@pytest.mark.parametrize(
    ("settings", "said"),
    [
        ("", "40 to 1000 steps a second within 800 ms"),
        (GROWS, "40 to 900 steps a second within 700 ms"),
        ("  pointer 300 steps a second\n", "300 steps a second"),
    ],
)
def test_facts_say_the_speed(settings: str, said: str) -> None:
    assert any(line.endswith(f"pointer: {said}") for line in lines_of(text(settings)))
