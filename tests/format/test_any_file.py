"""Ten thousand files, spaced in every way there is: one form, the same words, nothing lost.

Comments stand wherever the language lets them, words are joined by `and`, line ends are of every
system. `MATRIXGEN_FORMATTED=10000` formats as many; the suite itself takes fewer.
"""

import random
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from matrixgen.format.formatted import formatted
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source.edits import usual_line_end
from matrixgen.source.tree import every_statement
from matrixgen.source.tree_reader import tree_of
from tests.amounts import IS_LONG, amount, some
from tests.language.spacing import Spacing, statements_of
from tests.language.test_any_file import RICH
from tests.language.test_meaning import FULL
from tests.language.whole import WHOLE
from tests.texts import design_in

ROOT = Path(__file__).parents[2]
EXAMPLES = [path.read_text("utf-8") for path in sorted((ROOT / "examples").rglob("*.keys"))]
LONG = WHOLE.replace(
    "  line C D\n", "  line C D\n  line " + " ".join(f"Long-name-{n}" for n in range(12)) + "\n"
).replace("A B\n  row    r1", "A B Long-name-0 to Long-name-11\n  row    r1")
LONG = LONG.replace("A C\n", "A C " + " ".join(f"Long-name-{n}" for n in range(12)) + "\n")
PLAIN = [WHOLE, RICH, FULL, LONG, *EXAMPLES]
WEIGHTS = [20, 40, 20, 10, *([2] * len(EXAMPLES))]
SEEDS = 8 if IS_LONG else 4
GENERATED = amount("MATRIXGEN_FORMATTED", suite=40, long=10_000)


def form_of(text):
    made = formatted(SourceText("x", text))
    assert made.text is not None, (made.findings, text)
    return made.text


def told(text):
    """Each statement's rule, its letters without anything between two, and its comments."""
    tree = tree_of(SourceText("x", text))
    found = [
        (one.rule, "".join(one.words), [text.rstrip(" \t") for text in one.comments])
        for one in every_statement(tree)
    ]
    return found, [one.text.rstrip(" \t") for one in tree.below if one.kind == "comment"]


def meaning(text):
    return meaning_of(design_in(text))


def check_form(form):
    """What holds of every canonical form, whatever it was made of."""
    end = usual_line_end(form)
    assert form.count(end) == form.count("\n" if "\n" in form else "\r")
    lines = form.removeprefix("\ufeff").split(end)
    assert lines[-1] == "" and lines[-2] != "" and lines[0] != ""
    assert not any(line != line.rstrip(" \t") for line in lines)
    assert not any(a == b == "" for a, b in pairwise(lines))


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_generated_file_has_one_form_that_says_the_same(seed):
    chance = random.Random(seed)
    plain = [(statements_of(text), meaning(text)) for text in PLAIN]
    kinds = Counter()
    for _ in range(GENERATED // SEEDS):
        ((statements, means),) = chance.choices(plain, WEIGHTS)
        text = Spacing(chance).text(statements)
        form = form_of(text)
        check_form(form)
        assert form_of(form) == form, text
        assert told(form) == told(text), text
        assert meaning(form) == means, text
        assert form.startswith("\ufeff") == text.startswith("\ufeff")
        assert usual_line_end(form) == usual_line_end(text)
        kinds["comments"] += "#" in text
        kinds["joined"] += any(line.split()[:1] == ["and"] for line in text.splitlines())
        kinds["marked"] += text.startswith("\ufeff")
        kinds["tabs"] += "\t" in text
        kinds[usual_line_end(text)] += 1
    assert len(kinds) == 7 and all(kinds.values())


@pytest.mark.parametrize("seed", range(amount("MATRIXGEN_BLANKS", suite=1, long=100)))
def test_files_that_differ_in_blanks_alone_have_the_same_form(seed):
    """Without comments, empty lines and joints, nothing is left that could tell two apart."""
    chance = random.Random(seed)
    for text in PLAIN:
        statements = statements_of(text)
        forms = set()
        for _ in range(6):
            spacing = Spacing(chance)
            spacing._joints = spacing._comments = 0.0
            spacing._line_end = "\n"
            forms.add(form_of(spacing.text(statements)).removeprefix("\ufeff"))
        assert len(forms) == 1


def with_mistakes():
    for path in sorted((ROOT / "tests").rglob("*.keys")):
        text = path.read_bytes().decode("utf-8")
        yield pytest.param(text, id=str(path.relative_to(ROOT)))


@pytest.mark.parametrize("text", some(list(with_mistakes()), 300))
def test_a_broken_file_is_formatted_or_its_findings_are_told(text):
    """What can be read at all has a form, whatever rules it breaks; nothing else has."""
    source = SourceText("x", text)
    made = formatted(source)
    tree = tree_of(source)
    if all(one.rule for one in every_statement(tree)) and not tree.loose:
        assert made.text is not None and not made.findings
        check_form(made.text)
        assert form_of(made.text) == made.text
        assert told(made.text) == told(text)
    else:
        assert made.text is None
        assert any(found.is_error for found in made.findings)
