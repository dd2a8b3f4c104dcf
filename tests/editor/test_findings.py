"""What an editor shows is what `check` finds, however the text came about."""

from __future__ import annotations

import json
from pathlib import Path
from random import Random

import pytest

from matrixgen.cli.sarif import as_sarif
from matrixgen.editor import as_lsp
from matrixgen.editor.addresses import address_of
from matrixgen.editor.desk import Desk
from matrixgen.editor.messages import message_of
from matrixgen.editor.open_file import OpenFile
from matrixgen.jobs.catalogue import catalogue
from matrixgen.jobs.examine import examine, examine_text
from matrixgen.model import SourceText
from tests.amounts import amount, some
from tests.editor.edits import edits

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.keys"))
BROKEN = sorted(ROOT.glob("tests/*/*/**/broken*.keys"))
EDITS = amount("MATRIXGEN_EDITS", suite=6, long=10_000)
"""Edits of each example."""


def name(path: Path) -> str:
    return f"{path.parent.name}/{path.stem}"


@pytest.mark.parametrize("path", EXAMPLES, ids=name)
def test_after_each_edit_all_is_found_that_a_check_finds(path):
    text = path.read_text(encoding="utf-8")
    file = OpenFile(str(path), path.parent, text)
    for now in edits(Random(path.name), text, EDITS):
        file.change(now)
        found, wanted = file.examined(), examine_text(str(path), now, path.parent)
        assert found.findings == wanted.findings, now
        assert (found.allowed, found.open_points) == (wanted.allowed, wanted.open_points), now


@pytest.mark.parametrize("path", some(BROKEN, 30), ids=name)
def test_an_editor_a_check_and_a_sarif_report_tell_the_same_of_a_broken_file(path):
    text = path.read_text(encoding="utf-8")
    checked = examine(str(path))
    desk = Desk()
    *_, shown = [one for one in desk.check(desk.open(address_of(str(path)), text)) if one]
    found = [one for some in shown.by_path.values() for one in some]
    hints = [point.finding for point in checked.open_points]
    assert sorted(found, key=repr) == sorted([*checked.findings, *hints], key=repr)
    results = json.loads(as_sarif(checked.findings, catalogue()))["runs"][0]["results"]
    assert len(results) == len(checked.findings)
    for one, result in zip(checked.findings, results, strict=True):
        told = as_lsp.diagnostic(one, desk.source_of, desk.address_of, is_open=False)
        assert told.code == result["ruleId"]
        assert told.severity.name.lower() == result["level"]
        assert message_of(one).splitlines()[0] in result["message"]["text"]
        region = result["locations"][0]["physicalLocation"]["region"]
        assert _region(told.range, desk.source_of(one.span.path)) == region


def _region(stretch, source: SourceText) -> dict[str, int]:
    """A range of the protocol in SARIF's columns, counted by Python's own UTF-16."""
    columns = [
        len(source.line(at.line + 1).encode("utf-16-le")[: 2 * at.character].decode("utf-16-le"))
        for at in (stretch.start, stretch.end)
    ]
    return {
        "startLine": stretch.start.line + 1,
        "startColumn": columns[0] + 1,
        "endLine": stretch.end.line + 1,
        "endColumn": columns[1] + 1,
    }


def test_of_a_file_that_takes_long_what_is_quick_is_told_first(monkeypatch):
    path = ROOT / "examples/heron-12/heron-12.keys"
    text = path.read_text(encoding="utf-8")
    file = OpenFile(str(path), path.parent, text)
    file.examined()
    monkeypatch.setattr("matrixgen.editor.kept_rules.SLOW_SECONDS", 0)
    file.change(text + "\n# more\n")
    assert len([one for one in file.check() if one]) == 1, "what holds need not be waited for"
    file.change("\n" + text)
    first, last = (one for one in file.check() if one)
    assert set(first.findings) <= set(last.findings)
    assert last.findings == examine_text(str(path), "\n" + text, path.parent).findings


def test_what_a_file_leaves_open_is_a_hint():
    desk = Desk()
    *_, shown = [one for one in desk.check(desk.open("untitled:Pad", "plate\n  line A B\n")) if one]
    (found,) = shown.by_path.values()
    told = [
        as_lsp.diagnostic(one, desk.source_of, desk.address_of, is_open=one in shown.still_open)
        for one in found
    ]
    assert {(one.code, one.severity.name) for one in told} == {
        ("keyboard-without-name", "Hint"),
        ("keyboard-without-controller", "Hint"),
        ("keyboard-without-wiring", "Hint"),
    }


def test_what_two_files_find_in_one_profile_is_shown_once_and_while_one_is_open(tmp_path):
    mistaken = '{"like": "stick-32u4", "name": "my", "title": 7}'
    (tmp_path / "my.json").write_text(mistaken, encoding="utf-8")
    text = 'keyboard "A"\n  controller "my.json"\nplate\n  line A B\n'
    desk = Desk()
    addresses = [address_of(str(tmp_path / f"{one}.keys")) for one in "ab"]
    for address in addresses:
        *_, shown = [one for one in desk.check(desk.open(address, text)) if one]
    profile = str(tmp_path / "my.json")
    assert len(shown.by_path[profile]) == len(set(shown.by_path[profile])) > 0
    assert desk.close(addresses[0]).by_path[profile] == shown.by_path[profile]
    assert desk.close(addresses[1]).by_path[profile] == ()


def test_a_profile_that_is_changed_meanwhile_is_read_again(tmp_path):
    path = tmp_path / "a.keys"
    text = 'keyboard "A"\n  controller "my.json"\nplate\n  line A B\n'
    file = OpenFile(str(path), tmp_path, text)
    assert [one.slug for one in file.examined().errors] == ["unreadable-profile"]
    laid_over = '{"like": "stick-32u4", "name": "my", "title": "Mine"}'
    (tmp_path / "my.json").write_text(laid_over, encoding="utf-8")
    file.forget()
    assert file.examined().findings == examine_text(str(path), text, tmp_path).findings
    assert not file.examined().errors
