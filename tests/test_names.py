"""One name, one thing: no two files define a class of one name, nor anything that has a name in the
model or in the syntax tree."""

from __future__ import annotations

import ast
from collections import defaultdict
from collections.abc import Iterator, Mapping

from tests.modules import PACKAGE, code_files

CODE = {
    path.relative_to(PACKAGE).as_posix(): path.read_text(encoding="utf-8") for path in code_files()
}


def defined(code: str) -> Iterator[str]:
    """The classes and the names of types that a file defines for others."""
    for node in ast.parse(code).body:
        if isinstance(node, ast.ClassDef) and not node.name.startswith("_"):
            yield node.name
        elif isinstance(node, ast.Assign) and isinstance(node.targets[0], ast.Name):
            name = node.targets[0].id
            if name[0].isupper() and not name.isupper():
                yield name


def is_everybody_s(path: str) -> bool:
    return path.startswith("model/") or path == "source/tree.py"


def with_two_meanings(code: Mapping[str, str]) -> dict[str, list[str]]:
    places = defaultdict(list)
    for path, text in code.items():
        for name in set(defined(text)):
            places[name].append(path)
    return {
        name: paths
        for name, paths in places.items()
        if len(paths) > 1 and any(map(is_everybody_s, paths))
    }


def classes(code: Mapping[str, str]) -> dict[str, list[str]]:
    """The files that define a class of each name."""
    places = defaultdict(list)
    for path, text in code.items():
        for node in ast.parse(text).body:
            if isinstance(node, ast.ClassDef):
                places[node.name].append(path)
    return places


def test_no_two_files_define_a_class_of_one_name():
    twice = {name: paths for name, paths in classes(CODE).items() if len(paths) > 1}
    assert twice == {}


def test_a_name_of_the_model_or_of_the_tree_has_no_second_meaning():
    assert with_two_meanings(CODE) == {}


def test_a_planted_second_meaning_is_found():
    planted = {"fit/planted.py": "class Keyboard:\n    pass\nStatement = tuple[str, ...]\n"}
    assert set(with_two_meanings(CODE | planted)) >= {"Keyboard", "Statement"}
    assert len(classes(CODE | planted)["Keyboard"]) == 2
