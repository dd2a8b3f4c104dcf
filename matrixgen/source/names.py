"""Names: each defined once, each use of one found, the near ones suggested."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.model.diagnostic import Note
from matrixgen.model.span import Span, Word
from matrixgen.source.reading import Reading


class Names:
    """The names of one kind that a file defines. Names that differ in case alone are the same."""

    def __init__(self, reading: Reading, kind: str, help: str) -> None:
        """`kind` is the word for what is named; its slug is `doubled-` and that word.

        `are_all_lost` is for whoever finds that the file defines none, and has said so.
        """
        self._reading = reading
        self._kind = kind
        self._help = help
        self._first: dict[str, Word] = {}
        self.are_all_lost = False

    def define(self, name: Word) -> bool:
        """Take a new name in; report it and return False where it is taken."""
        first = self._first.setdefault(name.text.casefold(), name)
        if first is name:
            return self._check_length(name)
        alike = "" if first.text == name.text else f" (the same as `{name.text}` but for its case)"
        self._reading.report(
            f"doubled-{self._kind}",
            name.span,
            f"there is already a {self._kind} `{first.text}`{alike}",
            help=self._help,
            notes=[Note(f"`{first.text}` is first named here", first.span)],
        )
        return False

    def _check_length(self, name: Word) -> bool:
        longest = self._reading.limits.name_letters
        if len(name.text) > longest:
            message = f"this name has {len(name.text)} letters; at most {longest} are allowed"
            self._reading.report("over-the-limit", name.span, message)
        return True

    def __contains__(self, name: str) -> bool:
        first = self._first.get(name.casefold())
        return first is not None and first.text == name

    def all(self) -> list[str]:
        """Return every name, as it was first written, in file order."""
        return [word.text for word in self._first.values()]


def near_help(word: str, known: Iterable[str]) -> str | None:
    """Return the help that names the nearest known name, if one is near."""
    from matrixgen.usages import nearest

    found = nearest(word, known)
    return f"there is a `{found[0]}` with a similar name" if found else None


def count(number: int, one: str, many: str | None = None) -> str:
    """Return a number with its noun: `1 key`, `2 keys`."""
    return f"{number} {one if number == 1 else many or one + 's'}"


def in_range(
    reading: Reading, value: float, least: float, most: float, span: Span, what: str
) -> bool:
    """Whether a number is in its range; report it where it is not."""
    if least <= value <= most:
        return True
    message = f"{what} is {value:g}; it must be from {least:g} to {most:g}"
    reading.report("number-out-of-range", span, message)
    return False
