"""# layer that no key reaches

## What it does
Finds a layer that no key turns on, starting from the base layer, and one whose `while` names layers
that are never on together.

## Why it matters
Its cells can never be typed. Either the key that should hold or latch it was forgotten, or the
layer is a leftover.

## Example
```keys
actions
  digits-on   = hold layer digits

layer digits
  A = 1

layer signs
  B = Minus

layer base
  C = digits-on
```

## Do instead
```keys
actions
  digits-on   = hold layer digits

layer digits
  A = 1

layer base
  C = digits-on
```

## Reference
`grammar/README.md`, the blocks `actions` and `layer`. All sets of layers that keys can turn on are
tried, up to a few thousand; past that layers are taken to be on together.
"""

from collections.abc import Iterator

from matrixgen.model import BASE, Diagnostic, Keyboard, Layer, Problem, Severity, layer_turns
from matrixgen.model.prose import quoted
from matrixgen.rules.context import Context

PROBLEM = Problem("unreachable-layer", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each layer out of reach; of layers that only lead to each other, the first one."""
    entered = {layer.name.text: _enters(layer) for layer in context.keyboard.layers}
    needing = {one.name.text: _needs(one) for one in context.keyboard.layers if one.needs}
    reached = _reach({BASE}, entered, needing)
    lost = [layer for layer in context.keyboard.layers if layer.name.text not in reached]
    led_to = {name for layer in lost for name in entered[layer.name.text] - {layer.name.text}}
    for layer in sorted(lost, key=lambda layer: (bool(layer.needs), layer.name.text in led_to)):
        name = layer.name.text
        if name not in reached:
            reached = _reach(reached | {name}, entered, needing)
            helps = [f"give a key the action `hold layer {name}` or `latch layer {name}`"]
            if _may_be_base(context.keyboard, layer):
                helps.insert(0, "the layer that is always on is called `base`: write `layer base`")
            yield _finding(layer, *helps)
    yield from _never_together(context, {layer.name.text for layer in lost})


def _may_be_base(keyboard: Keyboard, layer: Layer) -> bool:
    """Whether a layer that no key turns on may be meant as the one that is always on.

    That is the first one of a file that gives no base layer, or one called `Base`.
    """
    base, *others = keyboard.layers
    if any(cell.given for cell in base.every_cell) or layer.needs:
        return False
    return layer is others[0] or layer.name.text.casefold() == BASE


def _finding(layer: Layer, *helps: str) -> Diagnostic:
    name = layer.name.text
    return PROBLEM.at(
        layer.name.span, f"no key reaches the layer `{name}`", help=helps, about=[name]
    )


def _never_together(context: Context, lost: set[str]) -> Iterator[Diagnostic]:
    """Yield each layer whose needed layers can each be on, but not all of them at once."""
    layers = context.keyboard.layers
    needing = [one for one in layers if one.needs and one.name.text not in lost]
    if not needing:
        return
    keys = context.layer_keys
    on = {name for state in keys.states() for name in keys.names_of(state.layers)}
    for layer in needing if keys.has_all_states else ():
        if layer.name.text not in on:
            names = quoted(word.text for word in layer.needs)
            yield _finding(
                layer, f"{names} are never on together: hold or latch them by other keys"
            )


def _enters(layer: Layer) -> set[str]:
    return {turn.layer for cell in layer.every_cell for turn in layer_turns(cell.action)}


def _needs(layer: Layer) -> set[str]:
    return {word.text for word in layer.needs}


def _reach(start: set[str], entered: dict[str, set[str]], needing: dict[str, set[str]]) -> set[str]:
    """Return every layer that keys of some layers, of those that they turn on, and so on, turn on.

    A layer that needs others is reached where all of those are.
    """
    found, waiting = set(start), list(start)
    while waiting:
        new = entered[waiting.pop()] - found
        new |= {name for name, needs in needing.items() if needs <= found | new} - found
        found |= new
        waiting += new
    return found
