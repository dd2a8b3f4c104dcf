"""Names: each defined once, in letters and digits, and each use of one found."""

from __future__ import annotations

from collections.abc import Sequence

from matrixgen.model.diagnostic import Note
from matrixgen.model.text import Span, Word
from matrixgen.record import Record
from matrixgen.source.reporter import Reporter

RESERVED = {
    "to": "`Tab to Enter` is a run of keys",
    "and": "a line that begins with `and` goes on with the one above it",
}
"""Words that no key can be called, and what they mean where a key's name could stand."""


class NameKind(Record):
    """A kind of name: the word for it, and for one that is doubled what to do, and the slug."""

    word: str
    cure: str
    doubled: str


KEY = NameKind("key", "give the second key a tag after a dot, as in `Space.2`", "duplicate-key")
CLUSTER = NameKind("cluster", "give this cluster a name of its own", "duplicate-cluster")
LINE = NameKind("wire", "give each row and column wire a name of its own", "duplicate-wire")
ACTION = NameKind("action", "give each action a name of its own", "duplicate-action")
LIGHT = NameKind("light", "name each light once on the plate and once wired", "duplicate-part")
KNOB = NameKind("knob", "name each knob once on the plate and once wired", "duplicate-part")
LAYER = NameKind("layer", "give each layer a name of its own", "duplicate-layer")


class Names:
    """The names of one kind that a file defines. Names that differ in case alone are the same."""

    def __init__(self, reporter: Reporter, kind: NameKind) -> None:
        """`are_all_lost` is for whoever finds that the file defines none, and has said so."""
        self._reporter = reporter
        self._kind = kind
        self._first: dict[str, Word] = {}
        self.are_all_lost = False

    def define(self, name: Word) -> bool:
        """Take a new name in; report it and return False where it is taken."""
        first = self._first.setdefault(name.text.casefold(), name)
        if first is name:
            return self._is_well_made(name)
        kind = self._kind
        alike = (
            "" if first.text == name.text else f" (the same as `{name.text}` except for capitals)"
        )
        self._reporter.report(
            kind.doubled,
            name.span,
            f"there is already a {kind.word} `{first.text}`{alike}",
            help=kind.cure,
            notes=[Note(f"`{first.text}` is first named here", first.span)],
        )
        return False

    def _is_well_made(self, name: Word) -> bool:
        longest = self._reporter.limits.name_letters
        if len(name.text) > longest:
            message = f"this name has {len(name.text)} characters; at most {longest} are allowed"
            self._reporter.report("over-the-limit", name.span, message)
        if not name.text.isascii():
            self._check_letters(name)
        return True

    def _check_letters(self, name: Word) -> None:
        """Report the first sign of a name that is no letter, mark or digit of any script."""
        from unicodedata import category  # few names have such letters

        for place, sign in enumerate(name.text):
            if not (sign.isascii() or category(sign)[0] in "LM" or category(sign) == "Nd"):
                start = name.span.column + place
                self._reporter.report(
                    "syntax",
                    Span.in_line(name.span.path, name.span.line, start, 1),
                    f"`{sign}` is neither a letter nor a digit",
                    help="a name has letters and digits of any script, `-` and `_`",
                )
                self._reporter.drop(name.text)
                return

    def __contains__(self, name: str) -> bool:
        first = self._first.get(name.casefold())
        return first is not None and first.text == name

    def in_other_case(self, name: str) -> str | None:
        """Return the name that differs from this one in capitals alone, if there is one."""
        first = self._first.get(name.casefold())
        return first.text if first and first.text != name else None

    def spelt(self, name: str) -> Word | None:
        """Return a name where it is first written, be it with other capitals."""
        return self._first.get(name.casefold())

    def similar_help(self, name: str) -> str | None:
        """Return the help that offers a name like this one, if there is one."""
        return self._reporter.similar_help(name, self.all())

    def all(self) -> list[str]:
        """Return every name, as it was first written, in file order."""
        return [word.text for word in self._first.values()]


def is_layer(reporter: Reporter, name: Word, layers: Sequence[str]) -> bool:
    """Whether there is a layer of that name, or may be; report where there is none."""
    if name.text in layers or reporter.was_dropped(name.text):
        return True
    near = reporter.similar_help(name.text, layers)
    reporter.report("unknown-layer", name.span, f"there is no layer `{name}`", help=near)
    return False
