"""Keys where a statement names them: one by one, or as a run in the order of the plate."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Fix
from matrixgen.model.text import Edit, Span, Word
from matrixgen.source.blocks.steps import Steps
from matrixgen.source.letters import name_of_key
from matrixgen.source.names import Names
from matrixgen.source.reporter import Reporter, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node, Token

KeyHelp = Callable[[str], str | None]
"""What a statement knows of a word that is no key: the help that it has for it, if any."""


def key_word(reporter: Reporter, token: Token) -> Word:
    """Return the name of a key: a sign has quotes where it has to have them, and only there."""
    word = reporter.word(token)
    return Word(name_of_key(word.text), word.span) if word.text.startswith('"') else word


RUN = "a run of keys is written `Tab to Enter`, with a key on either side"


class Keys:
    """The keys of the plate, for every statement that names some of them."""

    def __init__(self, reporter: Reporter, names: Names) -> None:
        """Take the names that the plate defines; `in_runs` counts keys between ends of runs."""
        self._reporter = reporter
        self._names = names
        self.steps = Steps(reporter, ())
        self._order = {name: place for place, name in enumerate(names.all())}
        self._in_order = list(self._order)
        self.in_runs = 0

    def __contains__(self, name: str) -> bool:
        return name in self._order

    def named(self, token: Token, cure: KeyHelp | None = None) -> Word:
        """Return a token as the name of a key; report it where the plate has no such key.

        A name that differs from a key's in capitals alone is reported, and then taken for it.
        """
        word = key_word(self._reporter, token)
        lost = self._names.are_all_lost or self._reporter.was_dropped(word.text)
        if word.text in self._order or lost:
            return word
        self._report_unknown(word, cure)
        return Word(self._names.in_other_case(word.text) or word.text, word.span)

    def listed(self, statement: Node, cure: KeyHelp | None = None) -> tuple[Word, ...]:
        """Return the keys that a statement names, runs in full."""
        return tuple(word for child in statement.children for word in self._of(child, cure))

    def places(self, statement: Node) -> tuple[Word, ...]:
        """Return the words in the place of keys, which need not be keys.

        The keys of a run stand wherever the whole of it does, its ends too.
        """
        words = [key_word(self._reporter, token) for token in tokens(statement, "KEY")]
        for run in trees(statement):
            span = self._reporter.whole(run)
            words += [Word(word.text, span) for word in self._run(run, None)]
        return tuple(words)

    def others(self, names: set[str]) -> list[str]:
        """Return the keys that are not among `names`, in plate order."""
        return [name for name in self._order if name not in names]

    def _of(self, child: Token | Node, cure: KeyHelp | None) -> Iterator[Word]:
        if not isinstance(child, str):
            yield from self._run(child, cure)
        elif child.type == "KEY":
            yield self.named(child, cure)

    def _run(self, run: Node, cure: KeyHelp | None) -> Iterator[Word]:
        """Yield the keys of a run; those between its ends stand wherever the whole of it does."""
        first, last = (self.named(token, cure) for token in tokens(run))
        span = self._reporter.whole(run)
        yield first
        for name in self._between_them(first.text, last.text, span):
            yield Word(name, span)
        if last.text != first.text:
            yield last

    def _between_them(self, first: str, last: str, span: Span) -> list[str]:
        """Return the keys between the ends of a run, as long as a file may list more."""
        names = self.between(first, last)[1:-1]
        before, most = self.in_runs, self._reporter.limits.listed_keys
        self.in_runs += len(names)
        if self.in_runs <= most:
            return names
        if before <= most:
            message = f"all runs together have more than {most:,} keys"
            help = "name each key once in a statement"
            self._reporter.report("over-the-limit", span, message, help=help)
        return []

    def between(self, first: str, last: str) -> list[str]:
        """Return the keys of a run from one key to another, both included, in its direction."""
        start, end = self._order.get(first), self._order.get(last)
        if start is None or end is None:
            return [first, last]
        names = self._in_order[min(start, end) : max(start, end) + 1]
        return names if start <= end else names[::-1]

    def _run_help(self, word: str) -> str | None:
        """Return the cure for `7-9`, where both are keys."""
        for place, letter in enumerate(word):
            first, last = word[:place], word[place + 1 :]
            if letter == "-" and first in self._order and last in self._order:
                return f"a run of keys is written `{first} to {last}`"
        return None

    def _report_unknown(self, word: Word, cure: KeyHelp | None) -> None:
        message, fix = f"the plate has no key `{word.text}`", None
        if spelt := self._names.in_other_case(word.text):
            help: str | None = f"the plate's key is called `{spelt}`"
            fix = Fix(f"write `{spelt}` for `{word.text}`", (Edit(word.span, spelt),))
        else:
            help = RUN if word.text == "to" else self._run_help(word.text)
            help = help or self.steps.help_for(word.text)
            help = help or (cure(word.text) if cure else None)
            help = help or self._names.similar_help(word.text)
        self._reporter.report("unknown-key", word.span, message, help=help, fix=fix)
