"""Where each value of a JSON text stands, so that a mistake in a profile can be pointed at.

The standard decoder keeps no positions. This walks a text that it has already accepted, so it
need not doubt the grammar (RFC 8259).
"""

from __future__ import annotations

import re
from bisect import bisect_right

from matrixgen.model.text import Span

JsonPath = tuple[str | int, ...]
"""The names and list places that lead from the whole document to a value."""

_STRING = re.compile(r'"(?:[^"\\]|\\.)*"', re.DOTALL)
_SCALAR = re.compile(r"[^\s,\]}]+")
_BLANK = re.compile(r"\s*")


class JsonPlaces:
    """The span of each value (`values`) and of each name (`names`), and names given twice.

    It is no dataclass: to import what makes those takes nearly as long as to start Python.
    """

    def __init__(self, whole: Span | None = None) -> None:
        """Begin with the place of the whole document, where it is known."""
        self.values: dict[JsonPath, Span] = {} if whole is None else {(): whole}
        self.names: dict[JsonPath, Span] = {}
        self.doubled: list[tuple[JsonPath, Span]] = []

    def nearest(self, path: JsonPath) -> Span:
        """Return the span of the value at `path`, or of what lies closest around it."""
        while path not in self.values:
            path = path[:-1]
        return self.values[path]


class _Walk:
    def __init__(self, text: str, shown_path: str) -> None:
        self.text = text
        self.shown_path = shown_path
        self.starts = [0, *(match.end() for match in re.finditer("\n", text))]
        self.places = JsonPlaces()

    def span(self, start: int, end: int) -> Span:
        """Return a span on the line of `start`: of a value over many lines, the first one."""
        line = bisect_right(self.starts, start)
        line_start = self.starts[line - 1]
        line_end = self.text.find("\n", start)
        end = end if line_end < 0 else min(end, line_end)
        return Span.in_line(self.shown_path, line, start - line_start + 1, end - start)

    def skip(self, at: int) -> int:
        """Return the place of the next character that is not blank."""
        match = _BLANK.match(self.text, at)
        return match.end() if match else at

    def value(self, at: int, path: JsonPath) -> int:
        """Note the value that starts at `at` and all inside it; return the place after it."""
        start = self.skip(at)
        opener = self.text[start]
        if opener == "{":
            end = self.members(start + 1, path)
        elif opener == "[":
            end = self.elements(start + 1, path)
        else:
            match = (_STRING if opener == '"' else _SCALAR).match(self.text, start)
            end = match.end() if match else start + 1
        self.places.values[path] = self.span(start, end)
        return end

    def members(self, at: int, path: JsonPath) -> int:
        """Note the members of an object; return the place after its closing brace."""
        import json

        at = self.skip(at)
        while self.text[at] != "}":
            match = _STRING.match(self.text, at)
            assert match, "the decoder has accepted this text"
            inner = (*path, json.loads(match.group(), strict=False))
            span = self.span(match.start(), match.end())
            if inner in self.places.names:
                self.places.doubled.append((inner, span))
            self.places.names[inner] = span
            at = self.skip(self.value(self.skip(match.end()) + 1, inner))
            at = self.skip(at + 1) if self.text[at] == "," else at
        return at + 1

    def elements(self, at: int, path: JsonPath) -> int:
        """Note the elements of a list; return the place after its closing bracket."""
        at = self.skip(at)
        number = 0
        while self.text[at] != "]":
            at = self.skip(self.value(at, (*path, number)))
            at = self.skip(at + 1) if self.text[at] == "," else at
            number += 1
        return at + 1


def places_in(text: str, shown_path: str) -> JsonPlaces:
    """Return where everything stands in a JSON text that `json.loads` has accepted."""
    walk = _Walk(text, shown_path)
    walk.value(0, ())
    return walk.places
