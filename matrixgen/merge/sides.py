"""One version of a file: its tree, what it means, and the names of its blocks and statements."""

from __future__ import annotations

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import cached_property

from matrixgen.merge.cells import Words, frame_of, said_in
from matrixgen.merge.three_way import Id
from matrixgen.model.design import Design
from matrixgen.model.layers import BASE
from matrixgen.model.text import SourceText
from matrixgen.record import Record
from matrixgen.source.design import design_of
from matrixgen.source.parts import TELLS_APART, is_of_keys
from matrixgen.source.tree import BlockTree, FileTree, Statement
from matrixgen.source.tree_reader import tree_of


class Version(Record):
    """A version that reads without a mistake."""

    tree: FileTree
    design: Design

    @cached_property
    def blocks(self) -> dict[Id, BlockTree]:
        """Its blocks by name, in their order."""
        return {block_id(block): block for block in self.tree.blocks}

    @cached_property
    def keys_of_lines(self) -> tuple[tuple[str, ...], ...]:
        """The names of the keys on each line of the plate."""
        lines = self.design.keyboard.plate.lines
        return tuple(tuple(key.name.text for key in line.keys) for line in lines)

    @cached_property
    def order(self) -> dict[str, int]:
        """The place of each key on the plate."""
        return order_of(self.keys_of_lines)

    @cached_property
    def steps(self) -> frozenset[str]:
        """What the steps of its knobs are called."""
        return frozenset(step for knob in self.design.keyboard.knobs for step in knob.steps)

    @cached_property
    def cells(self) -> dict[str, dict[str, Words]]:
        """What each layer says of each key that it names, in words."""
        found: dict[str, dict[str, Words]] = {BASE: {}}
        for block in self.tree.blocks:
            if block.header.rule == "layer":
                frame = frame_of(block.statements, self.keys_of_lines)
                found[block.header.words[1]] = said_in(frame)
        return found


def side_of(text: str) -> Version | None:
    """Return a text, whose line ends are line feeds, as a side; None where it has a mistake."""
    source = SourceText("merged", text)
    design, _ = design_of(source)
    return Version(tree_of(source), design) if design else None


def order_of(lines: Sequence[Sequence[str]]) -> dict[str, int]:
    """Return the place of each key on a plate."""
    return {key: place for place, key in enumerate(key for line in lines for key in line)}


def block_id(block: BlockTree) -> Id:
    """Return the name of a block: a layer has one of its own."""
    words = block.header.words
    return ("layer", words[1]) if block.header.rule == "layer" else (words[0],)


def statement_ids(statements: Sequence[Statement]) -> dict[Id, Statement]:
    """Return a block's statements by name; of those that have none, by number."""
    seen: Counter[Id] = Counter()
    found: dict[Id, Statement] = {}
    for statement in statements:
        name = _name(statement)
        found[(*name, seen[name])] = statement
        seen[name] += 1
    return found


def _name(statement: Statement) -> tuple[str, ...]:
    """Return the kind of a statement and what tells it from others of its kind."""
    rule = "cluster" if statement.rule == "mirrored" else statement.rule or ""
    names = [one.text for one in statement.parts[0].text if one.terminal in TELLS_APART]
    return (rule, *names)


def line_ids(
    base: Version | None, side: Version, others: Sequence[Sequence[str]]
) -> tuple[Id, ...]:
    """Return a name for each line of a plate: the number of the base's line that it was.

    A new line has its first key's name, or that of the line of `others` that it shares keys with.
    """
    lines = side.keys_of_lines
    was = most_similar(lines, base.keys_of_lines if base else ())
    like = most_similar(lines, others)
    return tuple(
        ("line", was[place])
        if place in was
        else ("new line", (others[like[place]] if place in like else line)[0])
        for place, line in enumerate(lines)
    )


def most_similar(lists: Sequence[Sequence[str]], others: Sequence[Sequence[str]]) -> dict[int, int]:
    """Return which of `others` each list shares the most names with, each one once."""
    shared = sorted(
        (-len(set(one) & set(other)), number, place)
        for place, one in enumerate(lists)
        for number, other in enumerate(others)
        if set(one) & set(other)
    )
    found: dict[int, int] = {}
    for _, number, place in shared:
        if place not in found and number not in found.values():
            found[place] = number
    return found


def expanded(words: Sequence[str], order: Mapping[str, int]) -> tuple[str, ...] | None:
    """Return the keys that a list names, its runs spelt out; None where one is on no plate."""
    keys, found, place = list(order), [], 0
    while place < len(words):
        if words[place + 1 : place + 2] != ["to"] and words[place + 1 : place + 2] != ("to",):
            found.append(words[place])
            place += 1
            continue
        ends = words[place], words[place + 2]
        if not set(ends) <= order.keys():
            return None
        first, last = order[ends[0]], order[ends[1]]
        run = keys[min(first, last) : max(first, last) + 1]
        found += run if first <= last else run[::-1]
        place += 3
    return tuple(found)


def key_words(statement: Statement | None) -> tuple[str, ...]:
    """Return the words with which a statement lists its keys."""
    parts = statement.parts if statement else ()
    return tuple(word for part in parts if is_of_keys(part.id) for word in part.words)
