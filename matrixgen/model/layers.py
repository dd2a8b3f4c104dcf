"""What each key does on each layer."""

from __future__ import annotations

from functools import cached_property
from typing import ClassVar

from matrixgen.model.actions import Action
from matrixgen.model.text import Span, Word
from matrixgen.model.work import AnyOrder, Cosmetic, Reflash, Spelling
from matrixgen.record import Record

BASE = "base"
"""The name of the layer that is always on and lies below all others."""


TOGETHER_MS = 40
"""Within what time keys are together, unless the file says it: fingers that mean to press two keys
at once do so within some 20 ms, and letters that are typed in turn are 100 ms apart (common
practice, no source)."""


class NamedAction(Record):
    """A name of the `actions` block and what it stands for; `span` is the whole statement."""

    name: Cosmetic[Word]
    action: Cosmetic[Action]
    span: Span


class Cell(Record):
    """What one key does on one layer.

    `key` stands where the key is named or, in a picture, where its cell is. `written` is the cell
    as the file has it. A cell that is not `given` is implied: it says that a key of the base layer
    does what its name on the plate says, and that is where it stands.
    """

    key: Cosmetic[Word]
    written: Spelling[Word]
    action: Reflash[Action]
    given: Spelling[bool] = True

    @property
    def key_names(self) -> tuple[str, ...]:
        """The name of its key, as the only one."""
        return (self.key.text,)


class Together(Record, kw_only=True):
    """What two to four keys do on one layer if they are pressed within a time of each other.

    `within_ms` is that time, in whole milliseconds; `span` is the whole statement. As a cell it is
    one of several keys: `key` is what texts call it, and stands where its keys do.
    """

    keys: Cosmetic[AnyOrder[Word]]
    written: Spelling[Word]
    action: Reflash[Action]
    within_ms: Reflash[int]
    span: Span

    given: ClassVar[bool] = True

    @property
    def key(self) -> Word:
        """All of its keys, as one word."""
        first, *_, last = self.keys
        return Word(" ".join(self.key_names), first.span.to(last.span))

    @property
    def key_names(self) -> tuple[str, ...]:
        """The names of its keys, as they are written."""
        return tuple(word.text for word in self.keys)


class Layer(Record, kw_only=True):
    """One layer: only the keys that it gives an action of its own. `span` is the whole block.

    Where `needs` has names, the layer is on while all layers with those names are. `together` has
    the sets of keys that are one action.
    """

    name: Cosmetic[Word]
    cells: AnyOrder[Cell]
    is_picture: Spelling[bool]
    span: Span
    needs: Reflash[AnyOrder[Word]] = ()
    together: Reflash[AnyOrder[Together]] = ()

    @property
    def every_cell(self) -> tuple[Cell | Together, ...]:
        """Its cells, those of one key first."""
        return (*self.cells, *self.together)

    @cached_property
    def by_key(self) -> dict[str, Cell]:
        """Its cells by the names of their keys."""
        return {cell.key.text: cell for cell in self.cells}

    def action_of(self, key: str) -> Action | None:
        """Return what a key does on this layer; None where the layer leaves it alone."""
        cell = self.by_key.get(key)
        return cell.action if cell else None
