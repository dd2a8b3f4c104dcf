"""What each key does on each layer."""

from __future__ import annotations

from functools import cached_property

from matrixgen.model.actions import Action
from matrixgen.model.text import Span, Word
from matrixgen.model.work import AnyOrder, Cosmetic, Reflash, Spelling
from matrixgen.record import Record

BASE = "base"
"""The name of the layer that is always on and lies below all others."""


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


class Layer(Record, kw_only=True):
    """One layer: only the keys that it gives an action of its own. `span` is the whole block.

    Where `needs` has names, the layer is on while all layers with those names are.
    """

    name: Cosmetic[Word]
    cells: AnyOrder[Cell]
    is_picture: Spelling[bool]
    span: Span
    needs: Reflash[AnyOrder[Word]] = ()

    @cached_property
    def by_key(self) -> dict[str, Cell]:
        """Its cells by the names of their keys."""
        return {cell.key.text: cell for cell in self.cells}

    def action_of(self, key: str) -> Action | None:
        """Return what a key does on this layer; None where the layer leaves it alone."""
        cell = self.by_key.get(key)
        return cell.action if cell else None
