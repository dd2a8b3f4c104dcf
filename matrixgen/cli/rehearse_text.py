"""What happens in a rehearsal, a line each: millisecond, key, what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.cli.fit_to_print import clean
from matrixgen.rehearse.happening import (
    Does,
    Ends,
    Happening,
    KeyHappening,
    KeyMoved,
    Undecided,
    Waits,
)


def lines(found: Sequence[Happening]) -> Iterator[str]:
    """Yield a line for each thing that happened.

    What a press does at once stands in the line of the press.
    """
    wide = max(map(len, map(_key, found)), default=0)
    rest = iter((*found, None))
    one = next(rest)
    while one is not None:
        after = next(rest)
        line = f"{one.at_ms:>6} ms  {_sign(one)} {_key(one):<{wide}}  {clean(one.words)}"
        if after is not None and _goes_with(one, after):
            line += clean(after.words)
            after = next(rest)
        if not isinstance(one, Ends) or one.words:
            yield line.rstrip()
        one = after


def _goes_with(one: Happening, after: Happening) -> bool:
    """Whether the second is what the press of the first does, in the same millisecond."""
    is_press = isinstance(one, KeyMoved) and one.down
    is_effect = is_press and isinstance(after, Undecided | Waits | Does)
    return is_effect and one.at_ms == after.at_ms and _key(one) == _key(after)


def _sign(one: Happening) -> str:
    return ("+" if one.down else "-") if isinstance(one, KeyMoved) else " "


def _key(one: Happening) -> str:
    return clean(one.key) if isinstance(one, KeyHappening) else ""
