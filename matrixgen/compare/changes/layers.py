"""Layers and actions: what keys do."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from matrixgen.compare.change import Change
from matrixgen.compare.changes.computer import is_sent_otherwise, sent_text
from matrixgen.compare.changes.renamed import in_both, renamed
from matrixgen.compare.changes.together import is_other_time, of_together
from matrixgen.compare.fact_words import sent_words
from matrixgen.compare.facts import CellPlace, of_kind
from matrixgen.compare.view import View
from matrixgen.model.prose import counted, quoted


def of_layers(view: View) -> Iterator[Change]:
    """Yield what changed in the layers, their cells, and the block `actions`."""
    through = _through_actions(view)
    yield from _layers_gone_or_added(view)
    yield from renamed("layer", view.matches.layers)
    yield from _layers_ordered(view)
    yield from _needs(view)
    yield from _actions(view, through)
    done = {cell for cells in through.values() for cell in cells}
    yield from _cells(view, done)
    yield from of_together(view, done)


def _layers_gone_or_added(view: View) -> Iterator[Change]:
    for layer in view.first["layers",]:
        if layer in view.edits.gone.layers:
            yield Change(
                kind="reflash",
                slug="layer-removed",
                text=f"layer `{layer}` is removed",
                thing="layer removed",
                old=layer,
            )
    for layer in view.added_layers:
        keys = tuple(path[2] for path in view.new if path[:2] == ("cell", layer))
        sets = sum(path[:2] == ("together", layer) for path in view.new)
        has_sets = f" and {counted(sets, 'set')} of keys together" if sets else ""
        yield Change(
            kind="reflash",
            slug="layer-added",
            text=f"layer `{layer}` is added, with {counted(len(keys), 'key')}{has_sets}",
            thing="layer added",
            keys=keys,
            layer=layer,
            new=layer,
        )


def _layers_ordered(view: View) -> Iterator[Change]:
    if orders := in_both(view.old["layers",], view.new["layers",]):
        before, after = orders
        yield Change(
            kind="reflash",
            slug="layers-ordered",
            text=f"the layers are in another order: {', '.join(after)}",
            thing="order of layers",
            old=" ".join(before),
            new=" ".join(after),
        )


def _needs(view: View) -> Iterator[Change]:
    """Yield each layer of both files that needs other layers than it did."""
    added = set(view.added_layers)
    for edit in view.of("layer"):
        _, layer, field = edit.path
        if layer in added or field != "needs":
            continue
        old, new = (_while(needs) for needs in (edit.old, edit.new))
        yield Change(
            kind="reflash",
            slug="layer-needs-changed",
            text=f"layer `{layer}` is now on {new}; it was on {old}",
            thing="set of needed layers",
            layer=layer,
            old=old,
            new=new,
        )


def _while(needs: frozenset[str] | None) -> str:
    return f"while {quoted(sorted(needs))} are" if needs else "only by keys"


def _through_actions(view: View) -> dict[str, list[CellPlace]]:
    """Return the cells that changed only because the action that they name was edited."""
    edited = {
        edit.path[1] for edit in view.of("action") if edit.old is not None and edit.new is not None
    }
    found: dict[str, list[CellPlace]] = {name: [] for name in edited}
    for edit in view.of("cell", "together"):
        cell = edit.path[1:]
        name = view.new_names.of_cells.get(cell)
        if edit.path[0] == "together" and is_other_time(edit):
            continue
        if name in edited and view.old_names.of_cells.get(cell) == name:
            found[name].append(cell)
    return found


def _actions(view: View, through: dict[str, list[CellPlace]]) -> Iterator[Change]:
    yield from renamed("action", view.matches.actions)
    for name in sorted(view.edits.gone.actions):
        yield _named_only(name, "is removed", "action removed", old=name)
    known = set(of_kind(view.old, "action"))
    for edit in view.of("action"):
        name = edit.path[1]
        if name not in known:
            yield _named_only(name, "is added", "action added", new=name)
        elif edit.new is not None:
            is_used = name in view.new_names.used
            yield _edited(name, edit.old, edit.new, through[name], is_used=is_used)


def _named_only(
    name: str, what: str, thing: str, *, old: str | None = None, new: str | None = None
) -> Change:
    """Return a change of the names that there are: what keys do is reported of the keys."""
    slug = thing.replace(" ", "-")
    return Change(
        kind="cosmetic", slug=slug, text=f"action `{name}` {what}", thing=thing, old=old, new=new
    )


def _edited(name: str, old: Any, new: Any, cells: list[CellPlace], *, is_used: bool) -> Change:
    """Return the change of an action; a key that does more than it is listed by itself."""
    keys = tuple(dict.fromkeys(key for _, *of_cell in cells for key in of_cell))
    uses = f", at {counted(len(cells), 'key')}" if cells else ""
    uses = uses or ("" if is_used else ", and no key uses it")
    text = f"action `{name}` changed from `{old.phrase}` to `{new.phrase}`{uses}"
    if old.phrase == new.phrase:
        text = f"action `{name}` sends other keys for `{new.phrase}`{uses}"
    return Change(
        kind="reflash" if cells else "cosmetic",
        slug="action-edited",
        text=text,
        thing="action",
        keys=keys,
        layer=cells[0][0] if len({layer for layer, *_ in cells}) == 1 else None,
        old=sent_words(old),
        new=sent_words(new),
    )


def _cells(view: View, through: set[CellPlace]) -> Iterator[Change]:
    """Yield each key that does something else on a layer of both files."""
    added_keys = {*view.added_keys, *view.added_steps}
    added_layers = set(view.added_layers)
    for edit in view.of("cell"):
        _, layer, key = edit.path
        if key in added_keys or layer in added_layers or (layer, key) in through:
            continue
        old = view.old_names.written.get((layer, key)) if edit.old else None
        new = view.new_names.written.get((layer, key)) if edit.new else None
        text = _cell_text(layer, key, old, new)
        if old == new:  # the same word for something else, such as a layer of another name
            word = old or ""
            old, new = (sent_words(action) if action else None for action in (edit.old, edit.new))
            text = _cell_text(layer, key, old, new)
            if is_sent_otherwise(view, (layer, key)):
                text = sent_text(layer, key, word, edit.old, edit.new)
        yield Change(
            kind="reflash",
            slug="key-on-layer",
            text=text,
            thing="key",
            keys=(key,),
            layer=layer,
            old=old,
            new=new,
        )


def _cell_text(layer: str, key: str, old: str | None, new: str | None) -> str:
    if old is None:
        return f"layer `{layer}`: `{key}` is now `{new}`; it was left to the layers below"
    if new is None:
        return f"layer `{layer}`: `{key}` is now left to the layers below; it was `{old}`"
    return f"layer `{layer}`: `{key}` changed from `{old}` to `{new}`"
