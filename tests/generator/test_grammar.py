"""The generator makes every production of the grammar, and files as large as the reference says.

Lark counts: each rule that its parser reduces by is one production, optional parts expanded.
"""

from __future__ import annotations

import itertools
from collections import Counter

import lark
import pytest

from matrixgen.model import SourceText
from matrixgen.record import changed
from matrixgen.resources import resource
from matrixgen.source import design_of, read_design
from matrixgen.source.limits import LIMITS
from matrixgen.source.load import words_of
from matrixgen.source.phrases.in_turn import OWN_PLACES
from tests.generator.files import BOARDS, draft

FILES = 150


REFUSED = {"<start : >", "<plate : PLATE>", "<_part : boot_loader>"}
"""What parses and is a mistake in any file: no plate, one without keys, a tap that ends it all."""

OF_BROKEN_FILES = {"syntax_mistakes", "findings", "similar_names"}
"""Limits that no file which reads can come up to."""

TIGHTER = (lambda most: most - 1), (lambda least: least * 2)


class Counted(dict):
    """What Lark calls at each reduction, by rule; it counts them."""

    def __init__(self, callbacks, found):
        super().__init__(callbacks)
        self._found = found

    def __getitem__(self, rule):
        self._found[rule] += 1
        return super().__getitem__(rule)


def counting_parser():
    grammar = (resource("grammar") / "keys.lark").read_text("utf-8")
    parser = lark.Lark(grammar, parser="lalr", lexer="contextual", propagate_positions=True)
    found = Counter()
    inner = parser.parser.parser.parser  # the LALR automaton of a parsing front end
    inner.callbacks = Counted(inner.callbacks, found)
    return parser, found


@pytest.fixture(scope="module")
def texts():
    return [draft(seed, sound=seed % 2 == 0).text for seed in range(FILES)]


def test_every_production_of_the_grammar_is_made(texts):
    parser, found = counting_parser()
    for text in texts:
        parser.parse("\n" + text)
    never = {str(rule) for rule in parser.rules if not found[rule]}
    assert never == REFUSED


def test_a_production_that_no_file_has_is_seen():
    parser, found = counting_parser()
    parser.parse("\nplate\n  line A\n")
    made = {rule.origin.name for rule in parser.rules if found[rule]}
    assert "plate_line" in made and made.isdisjoint({"cluster", "hole", "tap_hold"})


def test_every_file_reads(texts):
    for seed, text in enumerate(texts):
        design, found = design_of(SourceText("pad.keys", text))
        assert design, (seed, [one.message for one in found if one.is_error])


@pytest.fixture(scope="module")
def largest():
    texts = [draft(seed, most_keys=LIMITS.keys).text for seed in range(40)]
    padding = LIMITS.file_bytes - len(texts[0].encode())
    return [*at_limits_of_lists(), texts[0] + "#" * padding, *texts]


def at_limits_of_lists() -> list[str]:
    """Files with as many words, `allow`, controllers, keys in runs and strokes as there may be."""
    pad = "plate\n  line A\n"
    allow = "  allow unreachable-layer\n" * LIMITS.allowances
    boards = ", ".join(BOARDS[: LIMITS.controllers])
    names = [f"k{n}" for n in range(LIMITS.keys)]
    run = f"{names[0]} to {names[-1]}"
    runs, rest = divmod(LIMITS.listed_keys, LIMITS.keys - 2)
    listed = [*[run] * runs, f"{names[0]} to {names[rest + 1]}"]
    whole, rest = divmod(LIMITS.strokes, LIMITS.text_letters + OWN_PLACES)
    lengths = [*[LIMITS.text_letters] * whole, rest - OWN_PLACES]
    letters = "ABCDEFGHIJKLMNOPQRSTUVWXYZ"[: len(lengths)]
    texts = [
        f'  {one} = type "{one.lower() * length}"\n'
        for one, length in zip(letters, lengths, strict=True)
    ]
    computer = f'keyboard "Pad"\n  computer us\nplate\n  line {" ".join(letters)}\nlayer base\n'
    pairs = list(itertools.combinations(letters, 2))[: LIMITS.together]
    sets = "".join(f"  together {one} {two} = Esc\n" for one, two in pairs)
    assert len(pairs) == LIMITS.together
    made = [
        computer + "".join(texts),
        f"plate\n  line {' '.join(letters)}\nlayer base\n{sets}",
        f"{pad}# {'a ' * (LIMITS.words - words_of(pad) - 1)}\n",
        f'{pad}keyboard "Pad"\n{allow}',
        f'{pad}keyboard "Pad"\n  controller {boards}\n',
        f"plate\n  line {' '.join(names)}\n\nwiring\n  without diode {' '.join(listed)}\n"
        + f"\nlayer base\n{''.join(f'  {name} = A' + chr(10) for name in names)}",
    ]
    assert all(read_design("pad.keys", text)[0] for text in made)
    return made


@pytest.mark.parametrize("limit", sorted(set(LIMITS.kinds) - OF_BROKEN_FILES))
def test_files_come_up_to_the_limits_of_the_language(limit, largest):
    """Some file is refused where this limit alone is a little tighter."""
    tighter = changed(LIMITS, **{limit: TIGHTER[limit.startswith("least")](getattr(LIMITS, limit))})
    shortest_first = sorted(largest, key=len)
    assert any(not read_design("pad.keys", text, tighter)[0] for text in shortest_first)


def test_large_files_read_and_vary(largest):
    keyboards = [read_design("pad.keys", text)[0].keyboard for text in largest]
    for axis in ("row", "column"):
        lines = [len(one.wiring.of_axis(axis)) for one in keyboards]
        assert max(lines) == LIMITS.lines_per_axis and min(lines) < 4
    assert any(key.turned for one in keyboards for key in one.keys)
    assert any(key.x < 0 for one in keyboards for key in one.keys)
