"""What a maker answered at the bench, apart from how it was asked: it can be kept and taken up."""

from __future__ import annotations

from collections.abc import Collection, Mapping, Sequence

from matrixgen.bench.serial.press import ClosedPairs
from matrixgen.record import Record


class MakerAnswers(Record, kw_only=True):
    """What each key that was answered for closes, by names of pins, in the order of the answers.

    `sure` are those that were asked for or named, `skipped` those that were passed over.
    """

    closes: Mapping[str, ClosedPairs]
    sure: tuple[str, ...] = ()
    skipped: tuple[str, ...] = ()

    def of_keys(self, keys: Collection[str], pins: Collection[str]) -> MakerAnswers:
        """Return those of keys and pins that there still are."""
        return MakerAnswers(
            closes={
                key: pairs
                for key, pairs in self.closes.items()
                if key in keys and all(pin in pins for pair in pairs for pin in pair)
            },
            sure=tuple(key for key in self.sure if key in keys),
            skipped=tuple(key for key in self.skipped if key in keys),
        )


def command_in(text: str, commands: Sequence[str], keys: Collection[str]) -> str | None:
    """Return the command that a typed line is, if it is one.

    `:back` always is, and `back` where no key has that name.
    """
    word = text.strip()
    name = word.removeprefix(":")
    is_one = name in commands and (word != name or name not in keys)
    return name if is_one else None


def words_of(commands: Sequence[str], answer: str = "Enter: no response") -> str:
    """Return what may be typed when something is asked for, in a line: an answer or a command."""
    return " | ".join([answer, *(f":{one}" for one in commands)])
