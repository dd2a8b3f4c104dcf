"""`together J K = Esc`: two to four keys of a layer that are one action."""

from __future__ import annotations

from collections.abc import Iterable
from typing import TYPE_CHECKING

from matrixgen.model.actions import FirstSecond
from matrixgen.model.diagnostic import Note
from matrixgen.model.layers import TOGETHER_MS, Together
from matrixgen.model.text import Number, Span, Word
from matrixgen.source.blocks.keys import Keys
from matrixgen.source.reporter import Reporter, tokens, trees
from matrixgen.source.vocabulary import Vocabulary

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node

WITHIN_MS = (10, 200)
FEWEST, MOST = 2, 4
"""Keys of a set: a hand has four fingers and a thumb, and each more key makes it easier to miss."""

WITHIN = "within"
NO_RUN = "name the keys one by one: a run such as `J to L` cannot stand here"


class TogetherReader:
    """Reads the sets of a file's layers, of which there may be only so many in all."""

    def __init__(
        self, reporter: Reporter, keys: Keys, vocabulary: Vocabulary, usual_ms: Number | None
    ) -> None:
        self._reporter, self._keys, self._vocabulary = reporter, keys, vocabulary
        self._usual_ms = int(usual_ms.value) if usual_ms else TOGETHER_MS
        self._read = 0

    def sets_of(self, statements: Iterable[Node]) -> tuple[Together, ...]:
        """Return the sets of a layer, each once; report those that make no sense."""
        found: dict[frozenset[str], Together] = {}
        for statement in statements:
            self._count(self._reporter.whole(statement))
            one = self._set(statement)
            first = found.setdefault(frozenset(one.key_names), one) if one else None
            if one and first is not one:
                self._report_doubled(one, first)
        return tuple(found.values())

    def _count(self, span: Span) -> None:
        self._read += 1
        most = self._reporter.limits.together
        if self._read == most + 1:
            message = f"this is `together` number {most + 1}; a file has at most {most}"
            self._reporter.report("over-the-limit", span, message)

    def _set(self, statement: Node) -> Together | None:
        """Return what a statement says; None where its keys or its action are wrong."""
        reporter = self._reporter
        named = tokens(statement, "KEY")
        if named[0] == WITHIN and WITHIN not in self._keys:
            self._report_no_keys(reporter.span(named[0]).to(reporter.span(named[-1])))
            return None
        words = [self._keys.named(token, self._cure) for token in named]
        *within, said = trees(statement)
        within_ms = self._within_ms(within[0]) if within else self._usual_ms
        written = reporter.written(said.children[0])
        action = self._vocabulary.action_of(said.children[0])
        if isinstance(action, FirstSecond):
            self._report_presses(written.span)
            return None
        if not self._has_few_different(words) or action is None:
            return None
        return Together(
            keys=tuple(words),
            written=written,
            action=action,
            within_ms=within_ms,
            span=reporter.whole(statement),
        )

    def _report_presses(self, span: Span) -> None:
        self._reporter.report(
            "unfit-together",
            span,
            "keys together cannot wait to be pressed again",
            help="write one action here, and give `first` and `second` to a single key",
        )

    def _report_no_keys(self, span: Span) -> None:
        self._reporter.report(
            "unfit-together",
            span,
            "no key comes before the time",
            help=(
                "name the keys first, as in `together J K within 30 ms = Esc`",
                "the time of all sets is said in the block `keyboard`, as `together within 30 ms`",
            ),
        )

    def _cure(self, word: str) -> str | None:
        return NO_RUN if word == "to" else None

    def _within_ms(self, within: Node) -> int:
        """Return the time of a set; report one that is out of range or no whole number."""
        (token,) = tokens(within)
        number = self._reporter.number(token)
        self._reporter.is_whole_in(number, *WITHIN_MS, "the time in ms")
        return int(number.value)

    def _has_few_different(self, words: list[Word]) -> bool:
        """Whether keys make a set: report a key that is named twice, too few, too many."""
        first: dict[str, Word] = {}
        for word in words:
            if first.setdefault(word.text, word) is not word:
                self._reporter.report(
                    "duplicate-key-together",
                    word.span,
                    f"`{word}` is named a second time in this set",
                    help="a set has different keys: name each once",
                    notes=[Note(f"`{word}` is first named here", first[word.text].span)],
                )
                return False
        if FEWEST <= len(words) <= MOST:
            return True
        self._report_number(words)
        return False

    def _report_number(self, words: list[Word]) -> None:
        is_alone = len(words) < FEWEST
        message = (
            f"`{words[0]}` alone is not together with anything"
            if is_alone
            else f"this set has {len(words)} keys; at most {MOST} can be together"
        )
        cell = f"for one key write `{words[0]} = CELL` in a list"
        help = f"name another key, or {cell}" if is_alone else "leave some of them out"
        place = words[0].span if is_alone else words[MOST].span.to(words[-1].span)
        self._reporter.report("unfit-together", place, message, help=help)

    def _report_doubled(self, one: Together, first: Together | None) -> None:
        assert first is not None
        self._reporter.report(
            "duplicate-together",
            one.key.span,
            f"`{one.key}` together already have an action in this layer",
            help="keep one of the two; the order of the keys makes no difference",
            notes=[Note(f"they are given `{first.written}` here", first.key.span)],
        )
