"""The block `plate`: where each switch sits. Lengths are in key units, y grows downwards."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Press
from matrixgen.model.keyboard import Key, PlateLine
from matrixgen.source.names import Names, in_range
from matrixgen.source.reading import Reading, tokens, trees
from matrixgen.source.statements import statements_once
from matrixgen.usages import modifier_bit, usage_of

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Node

SMALLEST_KEY = 0.25


class _Origin:
    """Where the next line starts: its cluster's corner and angle, and how far down it is."""

    def __init__(self, x: float = 0.0, y: float = 0.0, turned: float = 0.0) -> None:
        self.x, self.y, self.turned = x, y, turned
        self.down = 0.0


def plate_lines(reading: Reading, block: Node, keys: Names) -> tuple[PlateLine, ...]:
    """Return the lines of the block `plate`; every key's name goes into `keys`."""
    clusters = Names(reading, "cluster", "give this cluster a name of its own")
    origin = _Origin()
    lines: list[PlateLine] = []
    for part in trees(block):
        if part.data == "cluster":
            origin = _cluster(reading, part, clusters)
        else:
            lines.append(_line(reading, part, origin, len(lines), keys))
    _check_number(reading, lines)
    if not lines and not reading.lost_lines(reading.whole(block)):
        reading.report(
            "missing-statement",
            reading.keyword(block, len("plate")),
            "the block `plate` has no line of keys",
            help="write each row of switches as `line` and the names of its keys",
        )
    return tuple(lines)


def press_of(name: str) -> Press | None:
    """Return what a key of that name does of itself; a tag after a dot does not count."""
    usage = usage_of(name.rsplit(".", 1)[0] if len(name) > 1 else name)
    if usage is None:
        return None
    modifier = modifier_bit(usage)
    return Press(0, modifier) if modifier else Press(usage)


def _cluster(reading: Reading, part: Node, clusters: Names) -> _Origin:
    name, *numbers = tokens(part)
    clusters.define(reading.word(name))
    reach = reading.limits.plate_reach
    for number in numbers[:2]:
        in_range(reading, float(number), -reach, reach, reading.span(number), "this place")
    for number in numbers[2:]:
        in_range(reading, float(number), -360, 360, reading.span(number), "this angle")
    x, y, *turned = map(float, numbers)
    return _Origin(x, y, turned[0] if turned else 0.0)


def _line(reading: Reading, part: Node, origin: _Origin, number: int, keys: Names) -> PlateLine:
    offsets = statements_once(reading, trees(part))
    drop, indent = _offset(reading, offsets.get("down")), _offset(reading, offsets.get("in"))
    origin.down += drop
    x, y = origin.x + indent, origin.y + origin.down
    found: list[Key] = []
    words = tokens(part)
    for token, following in zip(words, [*words[1:], None], strict=True):
        if token.type == "GAP":
            x += _length(reading, token, 1, "this gap", 0)
        elif token.type == "KEY":
            width, height = _size(reading, following)
            name = reading.word(token)
            keys.define(name)
            place = (x, y, width, height, origin.turned, origin.x, origin.y)
            found.append(Key(name, *place, number, press_of(token)))
            x += width
    origin.down += 1
    return PlateLine(tuple(found), reading.whole(part))


def _offset(reading: Reading, statement: Node | None) -> float:
    if statement is None:
        return 0.0
    token = tokens(statement)[0]
    reach = reading.limits.plate_reach
    in_range(reading, float(token), -reach, reach, reading.span(token), "this distance")
    return float(token)


def _size(reading: Reading, token: Token | None) -> tuple[float, float]:
    """Return a key's width and height; `token` may be its size, or whatever follows the key."""
    if token is None or token.type != "SIZE":
        return 1.0, 1.0
    width = _length(reading, token, 1, "this width", SMALLEST_KEY)
    if "x" not in token:
        return width, 1.0
    return width, _length(reading, token, token.index("x") + 1, "this height", SMALLEST_KEY)


def _length(reading: Reading, token: Token, start: int, what: str, least: float) -> float:
    """Return the number that starts at letter `start` of a token, and report an odd one."""
    digits = token[start:].split("x")[0]
    span = reading.part(token, start, len(digits))
    in_range(reading, float(digits), least, reading.limits.widest_key, span, what)
    return float(digits)


def _check_number(reading: Reading, lines: list[PlateLine]) -> None:
    keys = [key for line in lines for key in line.keys]
    most = reading.limits.keys
    if len(keys) > most:
        message = f"this is key number {most + 1}; a keyboard has at most {most} keys"
        reading.report("over-the-limit", keys[most].name.span, message)
