"""The block `plate`: where each switch sits. Lengths are in key units, y grows downwards."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from itertools import islice
from typing import TYPE_CHECKING

from matrixgen.model.actions import Media, Pointer, Press
from matrixgen.model.plate import Key, Plate, PlateLine, stem_of
from matrixgen.model.text import Word
from matrixgen.source.blocks.clusters import Clusters
from matrixgen.source.blocks.given_once import report_doubled
from matrixgen.source.blocks.keys import Keys, key_word
from matrixgen.source.blocks.millimetres import check_unit
from matrixgen.source.blocks.places import Places
from matrixgen.source.names import RESERVED, Names
from matrixgen.source.reporter import ReadingEnds, Reporter, tokens, trees
from matrixgen.usages import modifier_bit
from matrixgen.usages.media import media_usage_of
from matrixgen.usages.pointer import pointer_usage_of

if TYPE_CHECKING:
    from matrixgen.source.letters import Letters
    from matrixgen.source.syntax import Node, Token

SMALLEST_KEY = 0.25

ENOUGH = 2
"""Times as many keys as a keyboard may have: of a file with more, nothing further is read."""


def plate_of(reporter: Reporter, block: Node, names: Names, letters: Letters) -> Plate:
    """Return the block `plate`; every key's name goes into `names`."""
    reader = _PlateReader(reporter, names, letters)
    for part in trees(block):
        reader.read(part)
    reader.clusters.check_heights()
    reader.places.check_number()
    lines = tuple(reader.lines)
    _check_number(reporter, lines, "")
    if not lines and not reporter.lost_lines(reporter.whole(block)):
        reporter.report(
            "missing-statement",
            reporter.keyword(block, len("plate")),
            "the block `plate` has no line of keys",
            help="write each row of switches as `line` and the names of its keys",
        )
    places = reader.places
    holes, keep_clear = tuple(places.holes), tuple(places.keep_clear)
    clusters = tuple(reader.clusters.found)
    return Plate(
        lines,
        clusters,
        reporter.whole(block),
        holes,
        keep_clear,
        places.controller,
        places.outline,
        cut_out=places.cut_out,
        thickness=places.thickness,
        components=tuple(places.components),
    )


def without_stabiliser(block: Node, keys: Keys) -> tuple[Word, ...]:
    """Return the keys that are to have no stabiliser, once all keys are known."""
    parts = (part for part in trees(block) if part.data == "stabiliser")
    return tuple(word for part in parts for word in keys.listed(part))


def own_action_of(name: str, letters: Letters) -> Press | Media | Pointer | None:
    """Return what a key of that name does of itself; a tag after a dot does not count."""
    word = stem_of(name)
    usage = letters.usage_of(word)
    if usage is None:
        media, pointer = media_usage_of(word), pointer_usage_of(word)
        return Media(*media) if media else Pointer(*pointer) if pointer else None
    modifier = modifier_bit(usage)
    return Press(0, modifier) if modifier else Press(usage)


class _PlateReader:
    """Reads one statement of the plate after the other; knows where the next line starts."""

    def __init__(self, reporter: Reporter, names: Names, letters: Letters) -> None:
        self._reporter = reporter
        self._letters = letters
        self._names = names
        self._x = self._y = self._turned = 0.0
        self._down = 0.0
        self._of_cluster = self._number = 0
        self.clusters = Clusters(reporter)
        self.places = Places(reporter)
        self.lines: list[PlateLine] = []

    def read(self, part: Node) -> None:
        """Read a cluster's statement, a line, or what else has a place."""
        if part.data == "plate_line":
            self._read_line(part)
        elif part.data == "stabiliser":
            pass  # it names keys, all of which are known only later
        elif not self.places.read(part):
            cluster = self.clusters.start(part)
            self._x, self._y, self._turned = cluster.x, cluster.y, cluster.turned
            self._down, self._of_cluster = 0.0, 0

    def _read_line(self, part: Node) -> None:
        room = ENOUGH * self._reporter.limits.keys - self._number
        keys = list(islice(self._keys(part), room))
        self._number += len(keys)
        for key in keys:
            self._define(key)
        if self.clusters.open and self.clusters.open.mirror:
            keys = self.clusters.mirror_image(part, self._of_cluster, keys) or keys
        self._of_cluster += 1
        cluster_name = self.clusters.open.name.text if self.clusters.open else None
        line = PlateLine(tuple(keys), cluster_name, self._reporter.whole(part))
        self.clusters.add(line)
        self.lines.append(line)
        if len(keys) == room:
            _check_number(self._reporter, self.lines, "; what follows is not read")
            raise ReadingEnds

    def _keys(self, part: Node) -> Iterator[Key]:
        """Yield a line's keys from left to right, upright and in their cluster's frame."""
        drop, indent = self._offsets(part)
        self._down += drop
        x, y = self._x + indent, self._y + self._down
        self._down += 1
        words = tokens(part)
        for token, following in zip(words, [*words[1:], None], strict=True):
            if token.type == "GAP":
                x += self._length(token, 1, "this gap", 0)
            elif token.type == "KEY":
                width, height = self._size(following)
                yield self._key(token, x, y, width, height)
                x += width

    def _key(self, token: Token, x: float, y: float, width: float, height: float) -> Key:
        name = key_word(self._reporter, token)
        return Key(
            name=name,
            x=x,
            y=y,
            width=width,
            height=height,
            turned=self._turned,
            pivot_x=self._x,
            pivot_y=self._y,
            plate_line=len(self.lines),
            own_action=own_action_of(name.text, self._letters),
        )

    def _define(self, key: Key) -> None:
        if key.name.text in RESERVED:
            self._reporter.report(
                "reserved-name",
                key.name.span,
                f"a key cannot be called `{key.name}`: {RESERVED[key.name.text]}",
                help=f"write `{key.name.text.capitalize()}`, or give it another name",
            )
            self._reporter.drop(key.name.text)
        self._names.define(key.name)

    def _offsets(self, part: Node) -> tuple[float, float]:
        """Return how far a line is moved down and in."""
        found: dict[str, float] = {"down": 0.0, "in": 0.0}
        for offset in trees(part):
            rule, token = str(offset.data), tokens(offset)[0]
            reach = self._reporter.limits.plate_reach
            span = self._reporter.span(token)
            if self._reporter.in_range(float(token), -reach, reach, span, "this distance"):
                check_unit(self._reporter, token, span, "this distance")
            found[rule] = float(token)
        self._check_offsets(part)
        return found["down"], found["in"]

    def _check_offsets(self, part: Node) -> None:
        """Report an offset of a line that has one of its kind already."""
        first: dict[str, Node] = {}
        for offset in trees(part):
            rule = str(offset.data)
            if first.setdefault(rule, offset) is not offset:
                report_doubled(self._reporter, offset, first[rule], rule)

    def _size(self, token: Token | None) -> tuple[float, float]:
        """Return a key's width and height; `token` may be its size, or whatever follows the key."""
        if token is None or token.type != "SIZE":
            return 1.0, 1.0
        width = self._length(token, 1, "this width", SMALLEST_KEY)
        if "x" not in token:
            return width, 1.0
        return width, self._length(token, token.index("x") + 1, "this height", SMALLEST_KEY)

    def _length(self, token: Token, start: int, what: str, least: float) -> float:
        """Return the number that starts at letter `start` of a token, and report an odd one."""
        digits = token[start:].split("x")[0]
        span = self._reporter.part(token, start, len(digits))
        widest = self._reporter.limits.widest_key
        if self._reporter.in_range(float(digits), least, widest, span, what):
            check_unit(self._reporter, digits, span, what)
        return float(digits)


def _check_number(reporter: Reporter, lines: Sequence[PlateLine], and_then: str) -> None:
    keys = [key for line in lines for key in line.keys]
    most = reporter.limits.keys
    if len(keys) > most:
        message = f"this is key number {most + 1}; a keyboard has at most {most} keys{and_then}"
        reporter.report("over-the-limit", keys[most].name.span, message)
