"""A behaviour is one file in each room, and none can be forgotten."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path
from typing import get_args

import pytest

from matrixgen.emit.action_rows import Numbers, row_of
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    Instead,
    InTurn,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pointer,
    Press,
    StartBootLoader,
    Struck,
    TapHold,
    UnlatchLayers,
    WithModifier,
)
from matrixgen.source.phrases import PHRASES
from matrixgen.usages.key_stroke import KeyStroke
from tests.behaviours.places import PLACES, files_of, missing_places
from tests.behaviours.planted import NAME, ROOT, copy_of_checkout, plant
from tests.firmware.host_build import (
    COMPILERS,
    HostKeyboard,
    compile_c,
    host_view,
    sources,
    write_tree,
)
from tests.firmware.pads import small_pad

BEHAVIOURS = get_args(Action)
TAP_HOLD = TapHold(Press(0x04), HoldLayer("two"))
FIRST = FirstSecond(Press(0x04), HoldLayer("two"))
WITH = WithModifier(Press(0x2A), (Instead(0x22, Press(0x4C)),))
IN_TURN = InTurn((Struck(KeyStroke(0x0E, 0x01)), Struck(KeyStroke(0x28))))

SAMPLES: tuple[Action, ...] = (
    Press(0x06, 0x01),
    Media(0x0C, 0xE9),
    Pointer(0x01, 0x30, 1),
    HoldLayer("two"),
    LatchLayer("two"),
    UnlatchLayers(),
    OnceLayer("two"),
    OnceModifiers(0x02),
    ChangeBase("two"),
    TAP_HOLD,
    FIRST,
    IN_TURN,
    WITH,
    Nothing(),
    StartBootLoader(),
)


def name_of(behaviour: type) -> str:
    return behaviour.__module__.rpartition(".")[2]


@pytest.mark.parametrize("behaviour", BEHAVIOURS, ids=name_of)
def test_a_behaviour_is_at_home_in_every_place(behaviour: type) -> None:
    assert missing_places(ROOT, name_of(behaviour)) == []


def test_every_room_has_the_same_list() -> None:
    assert {phrase.behaviour for phrase in PHRASES.values()} == set(BEHAVIOURS)
    assert {type(sample) for sample in SAMPLES} == set(BEHAVIOURS)
    numbers = Numbers(
        layers={"two": 1},
        bases={"two": 1},
        tap_holds={TAP_HOLD: 0},
        first_seconds={FIRST: 0},
        media={Media(0x0C, 0xE9): 8},
        turns={IN_TURN: 0},
        withs={WITH: 0},
    )
    kinds = {row_of(sample, numbers).kind for sample in SAMPLES}
    assert len(kinds) == len(BEHAVIOURS)
    for room in ("matrixgen/model/actions", "matrixgen/source/phrases"):
        files = {path.stem for path in (ROOT / room).glob("*.py")}
        assert {name_of(behaviour) for behaviour in BEHAVIOURS} <= files
    headers = {path.stem for path in (ROOT / "templates/firmware/engine/behaviours").glob("*.h")}
    assert headers == {name_of(behaviour) for behaviour in BEHAVIOURS}


def test_a_behaviour_that_is_planted_whole_is_missed_nowhere(tmp_path: Path) -> None:
    root = copy_of_checkout(tmp_path)
    assert set(missing_places(root, NAME)) == set(PLACES)
    plant(root)
    assert missing_places(root, NAME) == []


@pytest.mark.parametrize("place", PLACES)
def test_a_behaviour_that_is_half_made_is_missed_where_it_lacks(place: str, tmp_path: Path) -> None:
    root = copy_of_checkout(tmp_path)
    plant(root, without=place)
    found = missing_places(root, NAME)
    assert place in found
    assert set(found) <= {place, *FOLLOWING.get(place, ())}


FOLLOWING = {
    "record": ("phrase in words",),
    "phrase that is read": ("taught mistakes", "reference row", "sound file"),
}
"""What is missing too where a whole file is."""


def test_the_guide_says_how_many_files_a_behaviour_touches(tmp_path: Path) -> None:
    root = copy_of_checkout(tmp_path)
    plant(root)
    files = files_of(root, NAME)
    changed = {name for name in files if (ROOT / name).is_file()}
    new = files - changed
    guide = " ".join((ROOT / "DEVELOPERS.md").read_text("utf-8").split())
    said = re.search(r"A new behaviour is (\d+) new files and a line or two in (\d+) others", guide)
    assert said and (int(said[1]), int(said[2])) == (len(new), len(changed))


# --- the guards that are not tests ---


def test_a_type_checker_refuses_a_place_that_does_not_know_a_behaviour(tmp_path: Path) -> None:
    """The very union with one more class in it; mypy finds both places that tell them apart."""
    lines = (
        "from typing import assert_never\n"
        "from matrixgen.model.actions import *\n"
        "from matrixgen.model.actions.behaviour import Behaviour\n"
        "class HonkHorn(Behaviour): ...\n"
        "def row_of(action: Action | HonkHorn) -> int:\n"
        "    match action:\n"
    )
    lines += "".join(
        f"        case {name}():\n            return {number}\n"
        for number, name in enumerate(kind.__name__ for kind in BEHAVIOURS)
    )
    lines += "        case _:\n            assert_never(action)\n"
    path = tmp_path / "planted.py"
    path.write_text(lines, encoding="utf-8")
    command = [sys.executable, "-m", "mypy", "--no-incremental", "--follow-imports=silent"]
    done = subprocess.run([*command, str(path)], cwd=ROOT, capture_output=True, text=True)
    assert done.returncode == 1
    assert '"HonkHorn"; expected "Never"' in done.stdout or "HonkHorn" in done.stdout
    for place in ("matrixgen/emit/action_rows.py", "matrixgen/behaviour/behaviours.py"):
        text = (ROOT / place).read_text(encoding="utf-8")
        assert text.count("match action:") == text.count("assert_never(action)") > 0


@pytest.mark.parametrize("compiler", COMPILERS)
def test_a_c_compiler_refuses_a_switch_that_does_not_know_a_kind(
    compiler: str, tmp_path: Path
) -> None:
    tree = firmware_tree(host_view(small_pad()))
    kinds = b"enum action_kind {\n"
    tables = tree["tables/tables.h"]
    assert kinds in tables
    tree["tables/tables.h"] = tables.replace(kinds, kinds + b"    ACTION_HONK = 99,\n")
    folder = write_tree(tree, tmp_path)
    with pytest.raises(AssertionError, match=r"ACTION_HONK"):
        compile_c(folder, tmp_path / "a.so", sources(folder, with_usb=False), compiler, "-shared")


def test_an_action_of_an_unknown_kind_is_a_counted_fault_in_the_host_build(tmp_path: Path) -> None:
    view = host_view(small_pad())
    tree = firmware_tree(view)
    actions = tree["tables/table_actions.c"].decode()
    planted = re.sub(r"\{ACTION_PRESS, +0x0004\}", "{99, 0x0004}", actions, count=1)
    assert planted != actions
    tree["tables/table_actions.c"] = planted.encode()
    folder = write_tree(tree, tmp_path)
    library = tmp_path / "keyboard.so"
    compile_c(folder, library, sources(folder, with_usb=False), "gcc", "-shared", "-fPIC")
    keyboard = HostKeyboard(library, view)
    keyboard.close("A", True)
    keyboard.step()
    assert keyboard.faults() == 1, "a press of it"
    keyboard.close("A", False)
    keyboard.step()
    keyboard.advance(20)
    keyboard.step()
    keyboard.step()
    assert keyboard.faults() == 2, "its release"
