"""What an editor may change: forms, layers, and what can be done about a finding."""

from __future__ import annotations

import itertools
from pathlib import Path

import pytest

from matrixgen.editor.as_lsp import ITEM_KINDS
from matrixgen.editor.colouring import coloured, hints
from matrixgen.editor.cures import can_be_wired, cures, wiring
from matrixgen.editor.features_reading import SYMBOL_KINDS, TOKEN_KINDS
from matrixgen.editor.file_words import FileWords
from matrixgen.editor.kinds import kind_of
from matrixgen.editor.layer_forms import layer_actions
from matrixgen.editor.open_file import OpenFile, OpenText
from matrixgen.editor.outline import around, folds, symbols
from matrixgen.editor.rewriting import canonical, edits_to
from matrixgen.format.formatted import formatted
from matrixgen.jobs.examine import examine_text
from matrixgen.merge.rewrite import NAMED
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source.edits import edited
from tests.amounts import some

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.keys"))
BROKEN = sorted(ROOT.glob("tests/*/*/**/broken*.keys"))


def opened(path: Path) -> OpenText:
    return OpenText(str(path), path.parent, path.read_text(encoding="utf-8"))


@pytest.mark.parametrize(
    ("old", "new"), [("a\nb\nc", "a\nx\nc"), ("a", "a\nb"), ("a\nb", "a"), ("", "a\n"), ("a\n", "")]
)
@pytest.mark.parametrize("end", ["\n", "\r\n"])
def test_edits_make_one_text_of_another(old, new, end):
    source = SourceText("a.keys", old.replace("\n", end))
    made = edited(source, edits_to(source, new))
    assert made == new.replace("\n", end if "\n" in old else "\n")


def test_a_file_is_formatted_as_fmt_does_it_and_some_lines_of_it_alone():
    text = OpenText("a.keys", ROOT, "plate\n   line A   B\n\nactions\n  a=B\n  c  =  D\n")
    assert edited(text.source, canonical(text)) == formatted(text.source).text
    assert edited(text.source, canonical(text, range(2, 3))) == text.source.text.replace(
        "   line A   B", "  line A B"
    )
    for path in EXAMPLES:
        assert list(canonical(opened(path))) == []


@pytest.mark.parametrize(
    "path", some(BROKEN, 25), ids=lambda path: f"{path.parent.name}/{path.stem}"
)
def test_what_can_be_done_about_a_finding_removes_it(path):
    text = path.read_text(encoding="utf-8")
    file = OpenFile(str(path), path.parent, text)
    examined = file.examined()
    lines = range(1, len(file.now.source.lines) + 1)
    for one in cures(file, examined, lines):
        new = edited(file.now.source, one.edits)
        after = examine_text(str(path), new, path.parent)
        kept = [(found.slug, found.message) for found in after.findings]
        before = [(found.slug, found.message) for found in examined.findings]
        this = (one.found.slug, one.found.message)
        assert kept.count(this) < before.count(this), one.title


def test_a_warning_is_allowed_at_its_place():
    path = next(p for p in BROKEN if p.parent.name == "pin-with-second-function")
    file = OpenFile(str(path), path.parent, path.read_text(encoding="utf-8"))
    titles = [one.title for one in cures(file, file.examined(), range(1, 99))]
    assert any(title.startswith("write `allow pin-with-second-function P") for title in titles)


def test_a_plate_without_a_wiring_gets_one():
    text = 'keyboard "A"\n  controller stick-32u4\n\nplate\n  line A B\n  line C D\n'
    file = OpenFile("a.keys", ROOT, text)
    examined = file.examined()
    assert can_be_wired(examined)
    made = wiring(file.now, examined)
    assert not isinstance(made, str)
    after = examine_text("a.keys", edited(file.now.source, made), ROOT)
    assert after.is_finished and not after.findings


def test_layers_are_written_as_lists_and_pictures_and_mean_the_same():
    done = 0
    for path in EXAMPLES:
        text = opened(path)
        for block in text.tree.blocks:
            for one in layer_actions(text, block.header.line):
                done += 1
                new = OpenText(str(path), path.parent, edited(text.source, one.edits) or "")
                assert new.read.design
                assert meaning_of(new.read.design) == meaning_of(text.read.design)
                assert formatted(new.source).text == new.source.original
    assert done > 4


def test_a_phrase_of_a_list_gets_a_name():
    text = OpenText("a.keys", ROOT, "plate\n  line A B\n\nlayer base\n  A = once Shift\n")
    (named,) = [one for one in layer_actions(text, 5) if "name what" in one.title]
    assert edited(text.source, named.edits) == (
        "plate\n  line A B\n\nactions\n  once-shift  = once Shift\n\nlayer base\n  A = once-shift\n"
    )


def test_each_kind_of_thing_has_its_icons_and_its_colour():
    for kinds in (ITEM_KINDS, TOKEN_KINDS, SYMBOL_KINDS):
        assert set(NAMED.values()) <= set(kinds)
    assert {kind_of(terminal) for terminal in NAMED} == set(NAMED.values())


def test_comments_are_coloured_before_the_first_block_and_after_the_last():
    text = OpenText("a.keys", ROOT, "  line A\n# first\nplate  # here\n  line B\n# last\n")
    found = [span.start for span, kind in coloured(text) if kind == "comment"]
    assert found == [(2, 1), (3, 8), (5, 1)]


@pytest.mark.parametrize("path", EXAMPLES, ids=lambda path: path.stem)
def test_the_outline_the_folds_and_the_colours_of_an_example(path):
    text = opened(path)
    lines = text.source.lines
    found = symbols(text)
    assert [one.name.split()[0] for one in found] == [
        line.split()[0] for line in lines if line and line[0] not in " #"
    ]
    keys = {part.name for one in found for part in one.parts if part.kind == "key"}
    assert keys == set(FileWords(str(path), text.tree).texts("KEY", rule="plate_line"))
    assert all(
        start < end <= len(lines) for start, end, is_comment in folds(text) if not is_comment
    )
    spans = [span for span, _ in coloured(text)]
    assert all(one.end <= other.start for one, other in itertools.pairwise(spans))
    for span in spans[::40]:
        near = around(text, span.start)
        assert span == near[0] or "#" in lines[span.line - 1]
        assert all(b.start <= a.start and a.end <= b.end for a, b in itertools.pairwise(near))
    said = dict(hints(text, range(1, len(lines) + 1)))
    assert len([one for one in said.values() if one.endswith("spare")]) == len(text.read.mounted)
    assert len(said) == len(keys) + len(text.read.mounted)
