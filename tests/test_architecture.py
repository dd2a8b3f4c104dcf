"""Data goes one way: a room imports only from rooms on lower floors, as DEVELOPERS.md has them."""

from __future__ import annotations

import ast
import re
from collections.abc import Iterator
from pathlib import Path

import networkx
import pytest

from tests.modules import PACKAGE, ROOT, code_files, module_of

GUIDE = (ROOT / "DEVELOPERS.md").read_text(encoding="utf-8")
FLOORS = {
    room: int(floor)
    for floor, room in re.findall(r"^\| (\d+) \| `matrixgen/(\w+)` \|", GUIDE, re.MULTILINE)
}


def statements_of(node: ast.AST) -> Iterator[ast.AST]:
    """Yield a tree's statements, and what holds some; an import is in no expression."""
    for name in ("body", "orelse", "handlers", "finalbody", "cases"):
        for one in getattr(node, name, ()) if not isinstance(node, ast.expr) else ():
            yield one
            yield from statements_of(one)


def imported_modules(code: str) -> Iterator[str]:
    for node in statements_of(ast.parse(code)):
        if isinstance(node, ast.Import):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.ImportFrom):
            assert node.level == 0, "imports are absolute, so that this test can read them"
            assert node.module
            yield node.module
            yield from (f"{node.module}.{alias.name}" for alias in node.names)


def rooms_of(code: str) -> set[str]:
    """The rooms that some code imports from."""
    ours = [name.split(".") for name in imported_modules(code) if name.split(".")[0] == "matrixgen"]
    return {parts[1] for parts in ours if len(parts) > 1} & (set(FLOORS) | {"__main__"})


def forbidden(room: str, code: str) -> set[str]:
    """The rooms that code of `room` imports from and must not."""
    return {other for other in rooms_of(code) - {room} if FLOORS.get(other, 99) >= FLOORS[room]}


def forbidden_in(path: Path) -> set[str]:
    """The rooms that a file imports from and must not; one beside the rooms needs none."""
    room, *inner = path.relative_to(PACKAGE).parts
    code = path.read_text(encoding="utf-8")
    if inner:
        return forbidden(room, code)
    return rooms_of(code) - ({"cli"} if room == "__main__.py" else set())


def test_files_import_only_from_lower_floors():
    found = {str(path.relative_to(PACKAGE)): forbidden_in(path) for path in code_files()}
    assert len(found) > len(FLOORS)
    assert {name: rooms for name, rooms in found.items() if rooms} == {}


def test_every_folder_is_a_room_of_the_guide_s_table_and_every_room_is_there():
    folders = {
        path.relative_to(PACKAGE).parts[0] for path in code_files() if path.parent != PACKAGE
    }
    assert folders == set(FLOORS)
    assert len(FLOORS) >= 9, "the table of floors was not found in DEVELOPERS.md"


@pytest.mark.parametrize(
    ("room", "code", "found"),
    [
        ("model", "from matrixgen.source import read_keyboard", {"source"}),
        ("source", "import matrixgen.boards.load", {"boards"}),
        ("boards", "def f():\n    from matrixgen import rules", {"rules"}),
        ("model", "from matrixgen.usages import usage_of", set()),
        ("usages", "from matrixgen.model import Key", {"model"}),
        ("emit", "from matrixgen.rules.context import Context", {"rules"}),
        ("rules", "if True:\n    import matrixgen.cli", {"cli"}),
        ("emit", "from matrixgen import __main__", {"__main__"}),
        ("rules", "from matrixgen.boards import Profile", set()),
        (
            "cli",
            "import matrixgen.model\nimport matrixgen.resources",
            set(),
        ),
    ],
)
def test_a_planted_bad_import_is_found(room, code, found):
    assert forbidden(room, code) == found


def test_a_relative_import_is_refused():
    with pytest.raises(AssertionError, match="imports are absolute"):
        rooms_of("from . import load")


AT_THE_BENCH = ("serial", "faults", "questions", "verdicts", "dialogues")
"""The folders of `matrixgen/bench`, each of which knows only those before it."""


def test_at_the_bench_too_data_goes_one_way():
    for number, folder in enumerate(AT_THE_BENCH, start=1):
        known = set(AT_THE_BENCH[:number])
        for path in (PACKAGE / "bench" / folder).glob("*.py"):
            code = path.read_text(encoding="utf-8")
            names = (name.split(".") for name in imported_modules(code))
            asked = {parts[2] for parts in names if parts[:2] == ["matrixgen", "bench"]}
            assert asked <= known, path.name


ACTIONS = "matrixgen.model.actions"
"""Records that hold one another, as a tap holds what it does: the one circle there may be."""


def uses_in_python(codes: dict[str, str]) -> networkx.DiGraph[str]:
    """Return which module asks for which, be it for a type alone."""
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for module, code in codes.items():
        for node in statements_of(ast.parse(code)):
            names = node.names if isinstance(node, ast.ImportFrom) else ()
            asked = [f"{node.module}.{alias.name}" for alias in names]
            graph.add_edges_from((module, one if one in codes else node.module) for one in asked)
    return graph


def circles(codes: dict[str, str]) -> list[set[str]]:
    """Return the circles of modules, those of the records that hold one another left out."""
    found = networkx.strongly_connected_components(uses_in_python(codes))
    return [one for one in found if len(one) > 1 and not all(m.startswith(ACTIONS) for m in one)]


def test_no_modules_ask_for_each_other():
    assert circles({module_of(path): path.read_text("utf-8") for path in code_files()}) == []


def test_a_planted_circle_is_found():
    one = "if TYPE_CHECKING:\n    from a.two import Two"
    assert circles({"a.one": one, "a.two": "from a import one", "a": "from a.one import x"}) == [
        {"a.one", "a.two"}
    ]


FIRMWARE = ROOT / "templates" / "firmware"
INCLUDED = re.compile(r'^ *# *include "([^"]+)"', re.MULTILINE)


def uses_in_c() -> networkx.DiGraph[str]:
    """Return which file of the firmware calls into which: it includes its header."""
    files = [path for path in FIRMWARE.rglob("*.c*") if {".c", ".j2"} & {path.suffix}]
    graph: networkx.DiGraph[str] = networkx.DiGraph()
    for path in files:
        for header in INCLUDED.findall(path.read_text(encoding="utf-8")):
            graph.add_edge(path.name.split(".")[0], Path(header).stem)
    return graph


def test_files_of_the_firmware_call_each_other_one_way_only():
    circles = networkx.strongly_connected_components(uses_in_c())
    assert [sorted(files) for files in circles if len(files) > 1] == []
