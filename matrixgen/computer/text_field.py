"""A text with a caret, and what keys for editing do to it, in the words of `us_layout.EDITS`."""

from __future__ import annotations


class TextField:
    """A text, divided by the caret. Nothing is ever selected."""

    def __init__(self) -> None:
        self.before = self.after = ""

    @property
    def text(self) -> str:
        """The whole of it."""
        return self.before + self.after

    def insert(self, text: str) -> None:
        """Put a text at the caret, which is behind it then."""
        self.before += text

    def edit(self, what: str) -> None:
        """Do what a key does, by its words."""
        match what:
            case "delete before":
                self.before = self.before[:-1]
            case "delete after":
                self.after = self.after[1:]
            case "left":
                self._caret(len(self.before) - 1)
            case "right":
                self._caret(len(self.before) + 1)
            case "start of line":
                self._caret(_line_start(self.before))
            case "end of line":
                self._caret(len(self.before) + _line_end(self.after))
            case "up":
                self._to_line(_line_start(self.before) - 1)
            case "down":
                self._to_line(len(self.before) + _line_end(self.after) + 1)
            case _:
                raise ValueError(what)

    def _caret(self, wanted: int) -> None:
        text = self.text
        at = min(max(wanted, 0), len(text))
        self.before, self.after = text[:at], text[at:]

    def _to_line(self, inside: int) -> None:
        """Move to the line that a place is in, the column kept; above the first one is none."""
        if inside < 0:
            return
        start = _line_start(self.text[:inside])
        column = len(self.before) - _line_start(self.before)
        self._caret(start + min(column, _line_end(self.text[start:])))


def _line_start(text: str) -> int:
    return text.rfind("\n") + 1


def _line_end(text: str) -> int:
    found = text.find("\n")
    return found if found >= 0 else len(text)
