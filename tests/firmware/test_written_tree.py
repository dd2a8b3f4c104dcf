"""A tree that is written is whole, and nothing in it is for another keyboard; its page tells of it.

Judges that we did not write: GCC's list of what each file includes (`-MM`), and GNU ld's of the
functions and tables that no other one needs (`--print-gc-sections`).
"""

from __future__ import annotations

import functools
import re
import subprocess
from itertools import islice
from pathlib import Path

import pytest

from matrixgen.boards import Mounted, Profile, builtin_profile
from matrixgen.emit.bench_tree import bench_tree
from matrixgen.emit.bench_view import bench_view
from matrixgen.emit.conditions import FACTS, FEATURES
from matrixgen.emit.firmware_tree import firmware_tree, whole_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.tree_readme import PAGE, folders_of, what_it_is
from matrixgen.families import FAMILIES
from matrixgen.toolchain import find_compiler
from matrixgen.toolchain.compiling import sources_of, write_tree
from tests.amounts import amount, in_turn
from tests.emulators.images import compiled
from tests.examples.shipped import NAMES, example
from tests.objects import compiled_objects
from tests.sizes.measure import CONTROLLERS, random_keyboards

GENERATED = amount("MATRIXGEN_TREES", suite=6, long=60)
SOURCE = "drawn.keys"

CALLED_BY_COMPILERS = {"memset", "memcpy"}
"""Where they want them: few keyboards have a table that is large enough."""

FOR_KEYBOARDS = frozenset(("port_usb_wake_host",))
"""What a port has that a bench does not ask for."""

OF_SEVERAL_KEYS = {"together"}
"""Kinds of actions that no key does by itself: the engine knows them, not a behaviour of a key."""

_UNUSED = re.compile(r"unused section '\.(?:text|bss|data|rodata|progmem\S*?|noinit)\.(\w+)'")
_ZERO = re.compile(r"^#define (\w+) 0$", re.MULTILINE)


@functools.cache
def drawn() -> list[Mounted]:
    return list(islice(random_keyboards((*CONTROLLERS, "rp2040", "rp2040"), "trees"), GENERATED))


def keyboards() -> list[object]:
    """Each example on one family in turn: its engine, USB and tables are the same on the other."""
    examples = map(pytest.param, in_turn(NAMES, sorted(FAMILIES)))
    return [*examples, *(pytest.param(number) for number in range(GENERATED))]


def mounted_of(which: object) -> Mounted:
    return drawn()[which] if isinstance(which, int) else example(*which).mounted  # type: ignore


@pytest.fixture(params=keyboards(), ids=str)
def mounted(request) -> Mounted:
    return mounted_of(request.param)


def tree_of(mounted: Mounted) -> dict[str, bytes]:
    return firmware_tree(firmware_view(mounted, SOURCE))


def included(folder: Path, sources: tuple[str, ...]) -> set[str]:
    """Return the files that some source includes, and the sources, as GCC finds them."""
    command = ["gcc", "-MM", "-Iengine", "-Iusb", "-Iport", "-Itables", *sources]
    done = subprocess.run(command, cwd=folder, capture_output=True, text=True, check=True)
    words = (word for word in done.stdout.split() if word != "\\" and not word.endswith(":"))
    return {(folder / word).resolve().relative_to(folder).as_posix() for word in words}


def unused(tree: dict[str, bytes], folder: Path, profile: Profile) -> set[str]:
    """Return the functions and variables that the linker leaves out, each file compiled alone."""
    compiler = find_compiler("gcc", FAMILIES[profile.port or ""])
    assert compiler is not None
    call = [*compiler.command, *compiler.family.flags("gcc", profile.chip.lower())]
    command = [word for word in call if word not in ("-flto", "-Wl,--fatal-warnings")]
    objects = compiled_objects(command, tree, sources_of(tree), folder)
    linked = [*command, *objects, "-o", "firmware.elf", "-Wl,--print-gc-sections"]
    done = subprocess.run(linked, cwd=folder, capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr
    return set(_UNUSED.findall(done.stderr))


def assert_all_is_used(
    tree: dict[str, bytes], profile: Profile, folder: Path, but: frozenset[str] = frozenset()
) -> None:
    write_tree(tree, folder)
    sources = sources_of(tree)
    assert included(folder, sources) == {name for name in tree if name.endswith((".c", ".h"))}
    assert unused(tree, folder, profile) <= CALLED_BY_COMPILERS | but


@pytest.mark.few(3)
def test_each_file_is_compiled_or_included_and_each_function_used(mounted, tmp_path) -> None:
    assert_all_is_used(tree_of(mounted), mounted.profile, tmp_path)


@pytest.mark.parametrize("controller", ["atmega32u4", "at90usb162"])
def test_so_it_is_in_the_tree_of_a_bench(controller: str, tmp_path: Path) -> None:
    profile = builtin_profile(controller)
    assert profile is not None and profile.family_record is not None
    tree = bench_tree(bench_view(profile, profile.family_record))
    assert_all_is_used(tree, profile, tmp_path, FOR_KEYBOARDS)


def test_what_is_planted_is_found(tmp_path) -> None:
    planted = example("heron-12", "avr").mounted
    tree = tree_of(planted) | {
        "engine/planted.h": b"void planted(void);\n",
        "engine/planted.c": b"void planted(void);\nvoid planted(void)\n{\n}\n",
    }
    write_tree(tree, tmp_path)
    sources = sources_of(tree)
    assert "engine/planted.h" not in included(tmp_path, sources)
    assert "planted" in unused(tree, tmp_path, planted.profile)


def test_no_constant_that_is_0_is_asked_for(mounted) -> None:
    tree = tree_of(mounted)
    code = {name: text.decode() for name, text in tree.items() if name.endswith((".c", ".h"))}
    facts = [text for name, text in code.items() if name.startswith("tables/") or name in FACTS]
    for name in _ZERO.findall("\n".join(facts)):
        asked = re.compile(rf"#\w*if.*\b{name}\b|\b{name} (?:!=|==|>|&&|\|\|)|[(!]{name}\b *[)&|]")
        assert [file for file, text in code.items() if asked.search(text)] == [], name


def test_each_kind_of_action_in_the_tree_is_in_its_table(mounted) -> None:
    tree = tree_of(mounted)
    kinds = set(re.findall(r"ACTION_\w+", tree["tables/table_actions.c"].decode()))
    for name in ("tables/tables.h", "engine/actions.c"):
        assert set(re.findall(r"\bACTION_\w+", tree[name].decode())) == kinds, name
    headers = {name for name in tree if name.startswith("engine/behaviours/") and name[-2:] == ".h"}
    words = {kind.removeprefix("ACTION_").lower() for kind in kinds}
    assert headers == {f"engine/behaviours/{word}.h" for word in words - OF_SEVERAL_KEYS}
    assert all(f"engine/{word}.h" in tree for word in words & OF_SEVERAL_KEYS)


@pytest.mark.few(2)
@pytest.mark.parametrize("which", [("heron-12", "avr"), ("whimbrel-34", "rp2040")], ids=str)
@pytest.mark.parametrize("kind", ["gcc", "clang"])
def test_the_sources_as_they_lie_give_the_same_image(which, kind) -> None:
    shipped = example(*which)
    view = firmware_view(shipped.mounted, SOURCE)
    whole = whole_tree(view)
    assert FEATURES in whole and FEATURES not in firmware_tree(view)
    as_they_lie = compiled(whole, shipped.profile, kind)
    assert as_they_lie.flash == compiled(firmware_tree(view), shipped.profile, kind).flash


# --- the page ---


def test_the_page_names_each_file_once_and_says_what_it_is(mounted) -> None:
    tree = tree_of(mounted)
    rows = re.findall(
        r"^\| (`[^|]*`) \| (.+) \|$", tree[PAGE].decode().split("## The files")[1], re.M
    )
    named = sorted(name for names, _ in rows for name in re.findall(r"`([^`]+)`", names))
    assert named == sorted(name.rpartition("/")[2] for name in tree if name != PAGE)
    parts = [part for folder in folders_of(tree, "") for part in folder.parts]
    silent = [part.names for part in parts if not part.text and part.names != (PAGE,)]
    assert silent == []


def test_the_page_names_no_file_that_is_not_there(mounted) -> None:
    tree = tree_of(mounted)
    named = set(re.findall(r"`(\w+/[\w/]+\.\w+)`", tree[PAGE].decode()))
    assert named <= set(tree)
    assert {"tables/table_layers.c", "port/pins.c"} <= named


def test_a_file_tells_of_itself_by_the_first_sentence_of_its_comment() -> None:
    told = what_it_is(
        "a.h", "/*\n * Pad: what it\n * is: this. And that.\n *\n * More.\n */\n", "Pad"
    )
    assert told == "What it is: this"
    assert what_it_is("a.h", "#ifndef A_H\n", "Pad") == ""
