"""What a word names, where else it stands, and another name for it."""

from __future__ import annotations

from pathlib import Path

import pytest

from matrixgen.editor.explained import explained
from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.names import Thing, definition, things, uses, word_at
from matrixgen.editor.open_file import OpenText
from matrixgen.editor.renaming import Renamed, renamed
from matrixgen.jobs.compare import compared
from matrixgen.jobs.examine import examine_text
from matrixgen.model import SourceText
from matrixgen.source.edits import edited
from matrixgen.source.tree_reader import tree_of
from tests.amounts import amount

ROOT = Path(__file__).parents[2]
EXAMPLES = sorted(ROOT.glob("examples/*/*.keys"))
RENAMED = amount("MATRIXGEN_RENAMED", suite=8, long=10**6)


def new_text(text: OpenText, made: Renamed) -> SourceText:
    """Return the file with its new name."""
    return SourceText(text.source.path, edited(text.source, made.edits) or "")


def opened(text: str) -> tuple[OpenText, FileWords]:
    one = OpenText("pad.keys", ROOT, text)
    return one, FileWords("pad.keys", one.tree)


def marked(text: str) -> tuple[OpenText, FileWords, WordAt]:
    """A text, and the word before the mark `|` in it."""
    before, after = text.split("|")
    one, words = opened(before + after)
    place = before.count("\n") + 1, len(before) - before.rfind("\n")
    found = word_at(words, place)
    assert found
    return one, words, found


def test_a_name_may_be_another_everywhere_and_the_keyboard_is_the_same():
    each = [
        (path, one)
        for path in EXAMPLES
        for some in FileWords(
            str(path), tree_of(SourceText(str(path), path.read_text(encoding="utf-8")))
        ).defined.values()
        for one in some
        if one.text != "base"
    ]
    for path, one in each[:: max(1, len(each) // RENAMED)]:
        text = OpenText(str(path), path.parent, path.read_text(encoding="utf-8"))
        made = renamed(text, one, "Another-1")
        assert isinstance(made, Renamed), (path, one.text, made)
        new = new_text(text, made)
        found = [examine_text(str(path), each.original, path.parent) for each in (text.source, new)]
        assert found[1].is_sound, found[1].errors
        assert compared(*found).kind == "cosmetic", (path, one.text)
        assert one.text not in {
            other.text for other in FileWords("", tree_of(new)).of(one.terminal) if not made.also
        }


PAD = "plate\n  line Q W Fn\nlayer base\n  Fn = hold layer nav\nlayer nav\n  Q = Up\n"


@pytest.mark.parametrize(
    ("text", "new", "after"),
    [
        (
            PAD.replace("line Q", "line Q|"),
            "Fire",
            "plate\n  line Fire W Fn\nlayer base\n  Fn = hold layer nav\n  Fire = Q\n"
            "layer nav\n  Fire = Up\n",
        ),
        ("plate\n  line Q| W\n", "Fire", "plate\n  line Fire W\n\nlayer base\n  Fire = Q\n"),
        (
            "plate\n  line Q| W\nlayer base\n  ~ X\n",
            "Fire",
            "plate\n  line Fire W\nlayer base\n  Q X\n",
        ),
        (PAD.replace("layer nav\n  Q", "layer nav|\n  Q"), "move", PAD.replace("nav", "move")),
        (PAD.replace("  Fn =", "  Fn| ="), "Raise", PAD.replace("Fn", "Raise")),
        ("plate\n  line Q| W\n", "Q.left", "plate\n  line Q.left W\n"),
        (
            'keyboard "A"\n  allow key-on-no-row Q\nplate\n  line Q| W\nlayer base\n  Q = A\n',
            "K1",
            'keyboard "A"\n  allow key-on-no-row K1\nplate\n  line K1 W\nlayer base\n  K1 = A\n',
        ),
    ],
)
def test_a_key_that_does_what_its_name_says_still_does(text, new, after):
    one, _, word = marked(text)
    made = renamed(one, word, new)
    assert isinstance(made, Renamed), made
    assert new_text(one, made).original == after


@pytest.mark.parametrize(
    ("text", "new", "why"),
    [
        (PAD.replace("line Q", "line Q|"), "W", "there is already a key `W`"),
        (PAD.replace("line Q", "line Q|"), "w", "there is already a key `W`"),
        (PAD.replace("line Q", "line Q|"), "a b", "no wire" if False else ""),
        (PAD.replace("layer base", "layer base|"), "nav2", "always on"),
        ("plate\n  line Q|\nactions\n  a = (\n", "K", "a mistake"),
        ("plate\n  line| Q\n", "K", "is no name"),
        ("plate\n  line Q\nactions\n  a| = B\nlayer base\n  Q = C\n", "c", "a cell already says"),
    ],
)
def test_a_name_that_cannot_be_is_refused(text, new, why):
    one, _, word = marked(text)
    made = renamed(one, word, new)
    assert isinstance(made, str)
    assert why in made


def test_uses_and_the_definition_of_each_thing_in_the_examples_are_each_others():
    for path in EXAMPLES[5:6]:
        words = FileWords(
            str(path), tree_of(SourceText(str(path), path.read_text(encoding="utf-8")))
        )
        for one in words.all:
            for thing in things(words, one):
                assert one in uses(words, thing)
                first = definition(words, thing)
                assert first is None or first in uses(words, thing)


def test_a_key_a_pin_a_layer_an_action_a_wire_and_a_finding_are_explained():
    path = ROOT / "examples/heron-12/heron-12.keys"
    text = OpenText(str(path), path.parent, path.read_text(encoding="utf-8"))
    words = FileWords(str(path), text.tree)
    said = {one.terminal: explained(text, one) or "" for one in reversed(words.all)}
    assert "meets column" in said["KEY"] and "`layer base`" in said["KEY"]
    assert "is on it" in said["PIN"]
    assert "**layer" in said["LAYER_NAME"]
    assert "**row" in said["WIRE_NAME"]
    _, words, word = marked('keyboard "A"\n  allow keys-overlap|\nplate\n  line A\n')
    page = explained(text, word)
    assert page and page.startswith("`keys-overlap`") and "## Why it matters" in page
    one, words, word = marked(PAD.replace("hold layer nav", "hold layer nav|"))
    assert "`Fn` on `layer base`: hold layer nav" in (explained(one, word) or "")


def test_a_cell_is_an_action_only_where_one_is_defined():
    _, words, word = marked("plate\n  line A B\nlayer base\n  A = B|\n")
    assert things(words, word) == ()
    _, words, word = marked("plate\n  line A\nactions\n  b = C\nlayer base\n  A = b|\n")
    assert things(words, word) == (Thing("action", "b"),)
