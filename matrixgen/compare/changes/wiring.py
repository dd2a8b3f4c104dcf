"""Wires, pins and controllers: what is soldered to what."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.changes.renamed import in_both, renamed
from matrixgen.compare.changes.rewired import along, rewired
from matrixgen.compare.facts import of_kind
from matrixgen.compare.view import View
from matrixgen.model.prose import quoted


def of_wiring(view: View) -> Iterator[Change]:
    """Yield what changed in the wires, their keys, pins and colours."""
    yield from _controllers(view)
    yield from _transposed(view)
    yield from _lines_gone(view)
    yield from _lines_added(view)
    yield from renamed("wire", view.matches.lines)
    yield from rewired(view)
    yield from _order_of_visits(view)
    yield from _order_of_lines(view)
    yield from _pins(view)
    yield from _colours(view)


def _controllers(view: View) -> Iterator[Change]:
    old, new = view.old["controllers",], view.new["controllers",]
    if old == new:
        return
    if old and new and not set(old) & set(new):
        steps = [
            BenchStep("pin", f"put wire `{line}` on {pin}") for line, pin in _pins_on(view, new[0])
        ]
        yield Change(
            kind="solder",
            slug="controller-replaced",
            text=f"the controller changed from {quoted(old)} to {quoted(new)}",
            thing="controller",
            old=", ".join(old),
            new=", ".join(new),
            steps=(BenchStep("take off", f"unsolder all wires from the {quoted(old)}"), *steps),
            reflashes=True,
        )
        return
    yield Change(
        kind="cosmetic",
        slug="controllers-named",
        text=f"the controllers of the file changed from {_or_none(old)} to {_or_none(new)}",
        thing="choice of controllers",
        old=", ".join(old),
        new=", ".join(new),
    )


def _transposed(view: View) -> Iterator[Change]:
    if view.edits.is_transposed:
        yield Change(
            kind="cosmetic",
            slug="axes-exchanged",
            text="rows are called columns now, and columns rows: the same wires",
            thing="exchange of row and column",
        )


def _or_none(controllers: Sequence[str]) -> str:
    return quoted(controllers) if controllers else "none"


def _pins_on(view: View, controller: str) -> list[tuple[str, str]]:
    return [
        (path[1], pin)
        for path, pin in view.new.items()
        if path[0] == "pin" and path[2] == controller
    ]


def _lines_gone(view: View) -> Iterator[Change]:
    axes = of_kind(view.first, "line")
    for line in axes:
        if line in view.edits.gone.lines:
            yield Change(
                kind="solder",
                slug="wire-removed",
                text=f"{axes[line]} `{line}` is removed",
                thing="wire removed",
                old=line,
                steps=(BenchStep("take off", f"remove the {axes[line]} wire `{line}`"),),
                reflashes=True,
            )


def _lines_added(view: View) -> Iterator[Change]:
    axes = of_kind(view.new, "line")
    for line in view.added_lines:
        visits = view.new["visits", line]
        steps = [BenchStep("wire", f"run the {axes[line]} wire `{line}`{along(visits)}")]
        steps += [
            BenchStep("pin", f"put wire `{line}` on {pin}")
            for path, pin in view.new.items()
            if path[:2] == ("pin", line)
        ]
        yield Change(
            kind="solder",
            slug="wire-added",
            text=f"{axes[line]} `{line}` is added",
            thing="wire added",
            keys=tuple(visits),
            new=line,
            steps=tuple(steps),
            reflashes=True,
        )


def _order_of_visits(view: View) -> Iterator[Change]:
    for line, new in of_kind(view.new, "visits").items():
        if orders := in_both(view.old.get(("visits", line), ()), new):
            before, after = orders
            yield Change(
                kind="cosmetic",
                slug="visits-ordered",
                text=f"wire `{line}` visits its keys in another order",
                thing="order of visits",
                keys=tuple(after),
                old=" ".join(before),
                new=" ".join(after),
            )


def _order_of_lines(view: View) -> Iterator[Change]:
    """Yield a change where wires are numbered anew: their order among the rows or the columns."""
    axes = of_kind(view.new, "line")
    for axis in ("row", "column"):
        old, new = (
            [line for line in facts["lines",] if axes.get(line) == axis]
            for facts in (view.old, view.new)
        )
        if orders := in_both(old, new):
            before, after = orders
            yield Change(
                kind="reflash",
                slug="wires-ordered",
                text=f"the {axis}s are in another order: the same keyboard, other numbers",
                thing="order of wires",
                old=" ".join(before),
                new=" ".join(after),
            )


def _pins(view: View) -> Iterator[Change]:
    """Yield each wire of both files that is on another pin of a controller of both."""
    both = set(view.old["controllers",]) & set(view.new["controllers",])
    for edit in view.of("pin"):
        _, line, controller = edit.path
        is_common = controller in both or controller.startswith("#")
        if not is_common or line in view.added_lines:
            continue
        where = f" of `{controller}`" if len(view.new["controllers",]) > 1 else ""
        yield Change(
            kind="solder",
            slug="pin-moved",
            text=_pin_text(line, edit.old, edit.new, where),
            thing="wire on another pin",
            old=edit.old,
            new=edit.new,
            steps=(BenchStep("pin", _pin_step(line, edit.old, edit.new, where)),),
            reflashes=True,
        )


def _pin_text(line: str, old: str | None, new: str | None, where: str) -> str:
    if old is None:
        return f"wire `{line}` is now on {new}{where}"
    if new is None:
        return f"wire `{line}` is no longer on a pin{where}; it was on {old}"
    return f"wire `{line}` moved from {old} to {new}{where}"


def _pin_step(line: str, old: str | None, new: str | None, where: str) -> str:
    if old is None:
        return f"put wire `{line}` on {new}{where}"
    if new is None:
        return f"unsolder wire `{line}` from {old}{where}"
    return f"move wire `{line}` from {old} to {new}{where}"


def _colours(view: View) -> Iterator[Change]:
    for edit in view.of("wire"):
        _, line, field = edit.path
        if line not in view.added_lines and field == "colour":
            yield Change(
                kind="cosmetic",
                slug="wire-coloured",
                text=f"wire `{line}` changed from {edit.old or 'no colour'} "
                f"to {edit.new or 'no colour'}",
                thing="colour",
                old=edit.old,
                new=edit.new,
            )
