"""Whatever is wrong with a file, `--fix` loses nothing of it: files with slips in them.

The judge reads both texts by itself, with the grammar and a pattern for comments, and knows nothing
of how a fix is made. `MATRIXGEN_FIXED=10000` tries as many files; the suite itself takes fewer.
"""

from __future__ import annotations

import random
import re
from collections import Counter
from pathlib import Path

import pytest

from matrixgen.jobs.examine import examine_text
from matrixgen.jobs.fix import fixed
from matrixgen.model import SourceText
from matrixgen.source.parser import parse
from matrixgen.source.reporter import trees
from matrixgen.usages import words_of
from matrixgen.usages.media import media_words_of
from tests.amounts import amount
from tests.cli.slips import SLIPS
from tests.format.test_any_file import PLAIN
from tests.generator.files import draft
from tests.language.spacing import Spacing, as_unix, statements_of
from tests.merge.keyboards import random_keyboard
from tests.texts import GOOD

FILES = amount("MATRIXGEN_FIXED", suite=40, long=10_000)
SEEDS = 4
CODE = re.compile(r'("(?:[^"\\\n]|\\.)*")|(#[^\n]*)')
USAGE = re.compile(r"\busage 0x([0-9A-Fa-f]+) 0x([0-9A-Fa-f]+)")
NUMERAL = re.compile(r"\d+(?:[.,]\d+)*")
LINE = re.compile(r"^[ \t]*line\b.*(?:\n[ \t]+and[ \t].*)*", re.M)
NAMED = {"row": 0, "column": 0, "action": 0, "layer": 0, "cluster": 0, "mirrored": 0}


def file_with_slips(chance: random.Random) -> str:
    """A sound file, or one that is not finished, with one to four slips in it."""
    kind = chance.random()
    if kind < 0.4:  # every production of the grammar
        text = draft(chance.randrange(10**6), sound=chance.random() < 0.5, most_keys=40).text
    elif kind < 0.6:
        text = random_keyboard(chance).text()
    elif kind < 0.7:
        text = GOOD.replace("PB0", "PF4").replace("PB1", "PF5")
    else:
        text = chance.choice(PLAIN)
        if len(text) < 4000 and chance.random() < 0.3:
            text = Spacing(chance).text(statements_of(text))
    text = as_unix(text)
    if chance.random() < 0.2:
        blocks = re.split(r"\n(?=\S)", text)
        del blocks[chance.randrange(len(blocks))]
        text = "\n".join(blocks)
    for _ in range(chance.choice((1, 1, 2, 3, 4))):
        text = chance.choice(SLIPS)(chance, text) or text
    return text


def without_comments(text: str) -> str:
    return CODE.sub(lambda found: found.group(1) or "", text)


def comments_of(text: str) -> Counter[str]:
    return Counter(found.group(2).strip() for found in CODE.finditer(text) if found.group(2))


def numerals_of(text: str) -> list[str]:
    """The numbers of a text; those of a usage that has a word are in that word, if any."""
    return NUMERAL.findall(USAGE.sub(word_of_usage, without_comments(text)))


def word_of_usage(found: re.Match[str]) -> str:
    page, usage = (int(number, 16) for number in found.groups())
    words = words_of(usage) if page == 0x07 else media_words_of(page, usage)
    return next(iter(words), found[0])


def told_in(text: str) -> Counter[tuple[str, ...]]:
    """What can be read of a file: its keys, its names by their kind, and each statement."""
    found: Counter[tuple[str, ...]] = Counter()
    for block in parse(text, 10**6).tree.children:
        for part in (block, *(one for one in block.children if not isinstance(one, str))):
            found["statement", part.data] += 1
            words = [str(one) for one in part.children if isinstance(one, str)]
            if part.data in NAMED:
                found[part.data, words[NAMED[part.data]]] += 1
            if part.data == "plate_line":
                found.update(("key", str(one)) for one in part.children if _is_key(one))
            if part.data == "allow":
                found["words allowed",] += len(words)
            if part.data == "entries":
                found["cells",] += words.count("=") or len(part.children)
    return found


def _is_key(one: object) -> bool:
    return getattr(one, "type", None) == "KEY"


def strangers_in(text: str) -> Counter[str]:
    """The words in the place of keys, in wires that can be read, that no `line` has."""
    blocks = parse(text, 10**6).tree.children
    lines = LINE.findall(without_comments(text))
    keys = {word for line in lines for word in re.split(r"[\s,:]+", line)}
    visits = (
        str(word)
        for block in blocks
        for wire in trees(block)
        if wire.data in ("row", "column")
        for tree in (wire, *(part for part in trees(wire) if part.data == "run"))
        for word in tree.children
        if getattr(word, "type", None) == "KEY"
    )
    return Counter(word for word in visits if keys and word not in keys)


def check_nothing_lost(before: str, after: str) -> None:
    said, now = told_in(before), told_in(after)
    assert not said - now, said - now
    assert comments_of(after) == comments_of(before)
    assert numerals_of(after) == numerals_of(before)
    if before.count(",") > after.count(","):  # pins whose `on` was forgotten are no keys
        assert not strangers_in(after) - strangers_in(before)
    typed = Counter(re.split(r"[\s,:]+", without_comments(before)))
    for name in (word for kind, *word in now - said if kind == "key"):
        assert typed[name[0]], f"a switch `{name[0]}` that nobody asked for"


def fix_of(text: str) -> tuple[list[str], str]:
    done = fixed(examine_text("any.keys", text, Path()), SourceText("any.keys", text), Path())
    return [found.slug for found in done.cured], done.text


@pytest.mark.parametrize("seed", range(SEEDS))
def test_a_fix_loses_nothing_and_invents_nothing(seed: int) -> None:
    chance, cured = random.Random(f"fix {seed}"), Counter[str]()
    lost = []
    for _ in range(FILES // SEEDS):
        text = file_with_slips(chance)
        slugs, after = fix_of(text)
        cured.update(slugs)
        try:
            check_nothing_lost(text, after)
        except AssertionError as error:
            lost.append((slugs, str(error).split("\n")[0], text, after))
    assert sum(cured.values()) > FILES // SEEDS // 30, "fixes were tried"
    assert not lost, f"{len(lost)} of {FILES // SEEDS} files: {lost[0]}"
