"""An option that has a new name is still taken under its old one; the help has the new one."""

from __future__ import annotations

import argparse
import importlib

import pytest

OLD = [
    ("check", "--cure", "--fix-also", ("pad.keys",)),
    ("load", "--drive", "--mount", ("pad.keys",)),
]


@pytest.mark.parametrize(("command", "old", "new", "rest"), OLD)
def test_an_old_option_is_the_new_one(
    command: str, old: str, new: str, rest: tuple[str, ...]
) -> None:
    parser = argparse.ArgumentParser()
    importlib.import_module(f"matrixgen.cli.{command}").add_arguments(parser)
    assert parser.parse_args([old, "x", *rest]) == parser.parse_args([new, "x", *rest])
    assert parser.parse_args([old, "x", *rest]) != parser.parse_args([*rest])
    assert new in parser.format_help() and old not in parser.format_help()
