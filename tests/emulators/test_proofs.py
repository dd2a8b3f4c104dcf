"""What is said to be emulated is what these tests and those of the examples put into an emulator.

Emulated means that firmware built for the very profile, on its own pins, was enumerated and typed
on: each chip's widest matrices (`test_line_sets.py`) and each example's own controller
(`tests/examples`). No profile can claim it.
"""

from __future__ import annotations

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.boards.proofs import EMULATED
from tests.emulators.test_line_sets import CHIPS
from tests.examples.shipped import BUILDS, example


def really_emulated() -> set[str]:
    """Return the controllers that firmware runs for in the emulators' tests."""
    of_examples = {example(name, family).mounted.profile.name for name, family, _ in BUILDS}
    return set(CHIPS) | of_examples


def test_what_is_said_to_be_emulated_has_been() -> None:
    assert really_emulated() == EMULATED
    profiles = [builtin_profile(name) for name in builtin_names()]
    assert {one.name for one in profiles if one and one.proof == "emulated"} == EMULATED
