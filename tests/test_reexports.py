"""A name is imported from the file that defines it, or from a package that has it for others.

What a package has for others is what its `__init__.py` imports; there is no second list of it.
"""

from __future__ import annotations

import ast
from collections.abc import Iterator
from functools import cache

from tests.modules import PACKAGE, code_files, module_of

FILES = {
    path: ast.parse(path.read_text(encoding="utf-8"))
    for folder in ("matrixgen", "tests")
    for path in code_files(folder)
}
MODULES = {module_of(path): (path, tree) for path, tree in FILES.items()}
PACKAGES = {name for name, (path, _) in MODULES.items() if path.name == "__init__.py"}


def taken(tree: ast.AST) -> Iterator[tuple[str, str]]:
    """Yield each name that some code imports from a file of ours, and the file's module."""
    for node in ast.walk(tree):
        if isinstance(node, ast.ImportFrom) and node.module in MODULES:
            yield from ((node.module, alias.name) for alias in node.names)


@cache
def brought(module: str) -> set[str]:
    """The names that a file has from elsewhere."""
    return {
        alias.asname or alias.name
        for node in ast.walk(MODULES[module][1])
        if isinstance(node, ast.ImportFrom)
        for alias in node.names
    }


def passed_on(tree: ast.AST) -> set[tuple[str, str]]:
    """What code imports from a file that has it from elsewhere itself, and is no package."""
    return {
        (module, name)
        for module, name in taken(tree)
        if module not in PACKAGES and name in brought(module)
    }


def test_a_name_is_imported_from_where_it_is_defined_or_from_a_package():
    ours = (tree for path, tree in FILES.items() if path.is_relative_to(PACKAGE))
    assert set().union(*map(passed_on, ours)) == set()
    assert passed_on(ast.parse("from matrixgen.source.design import Design, read_design")) == {
        ("matrixgen.source.design", "Design")
    }


def test_a_package_has_nothing_for_others_that_nobody_takes():
    asked = {one for tree in FILES.values() for one in taken(tree)}
    for package in sorted(name for name in PACKAGES if name.startswith("matrixgen")):
        tree = MODULES[package][1]
        used = {node.id for node in ast.walk(tree) if isinstance(node, ast.Name)}
        of_ours = {name for module, name in taken(tree)} - used
        assert {name for name in of_ours if (package, name) not in asked} == set(), package
