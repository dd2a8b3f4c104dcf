"""# ghost in a combination that the keyboard uses

## What it does
Finds keys that make another key seem pressed in a combination that this keyboard uses: one key with
the keys that hold its layer on and up to three modifier keys, the same with all keys of a
`together`, or the keys of `boot-loader hold`.

## Why it matters
Without diodes, three pressed keys at the corners of a rectangle of wires close the fourth corner
too. Here an ordinary combination does so, and something is typed that nobody pressed. No firmware
can tell the two apart.

## Example
```keys
plate
  line Q W
  line A Shift

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  without diode Q W A Shift
  row    r0          on PD0   Q W
  row    r1          on PD1   A Shift
  column c0          on PB0   Q A
  column c1          on PB1   W Shift

layer base
  A = Ctrl
```

## Do instead
Solder a diode where the finding says, band toward the driven wires, and remove its key from
`without diode`. `matrixgen check --fix-also keymap-ghosts` does the second.
```keys
plate
  line Q W
  line A Shift

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   Q W
  row    r1          on PD1   A Shift
  column c0          on PB0   Q A
  column c1          on PB1   W Shift

layer base
  A = Ctrl
```

## Reference
Kirchhoff's laws: current takes every closed path from a sensed wire to the driven one. HID 1.11
appendix C and F.3 speak of such a combination as one that cannot be determined.
"""

from collections.abc import Iterator

from matrixgen.circuit.ghost_report import GhostReport
from matrixgen.circuit.used_ghosts import UsedGhost
from matrixgen.model import Diagnostic, Note, Problem, Severity
from matrixgen.model.prose import counted, listed, quoted
from matrixgen.rules.context import Context
from matrixgen.rules.electric.ghost_cure import diodes_fix, diodes_help, place_of
from matrixgen.rules.electric.ghost_figure import ghost_figure

PROBLEM = Problem("keymap-ghosts", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding for the file: the smallest such set of keys; how many more there are."""
    ghosts = context.ghosts
    if context.is_all_against_scan or not ghosts.used:
        return  # diode-against-scan says more
    first = ghosts.used[0]
    keys = [one.key for one in ghosts.matrix.contacts if one.key in first.ghost.keys]
    yield PROBLEM.at(
        place_of(context, first.ghost.back),
        f"{quoted(keys)} down together make `{first.ghost.seen.key}` seem pressed, "
        "and this keyboard uses them together",
        help=_helps(context, ghosts),
        notes=[Note(_how(first, keys)), *_more(ghosts)],
        about=[*keys, first.ghost.seen.key],
        fix=diodes_fix(context, ghosts.for_keymap.keys),
        figure=ghost_figure(first.ghost, ghosts.matrix, context.keyboard.wiring.drive),
    )


def _how(first: UsedGhost, keys: list[str]) -> str:
    """Return which part each key plays."""
    use = first.use
    if use.is_boot_loader:
        return f"{quoted(keys)} start the boot loader together"
    held = [key for key in keys if key in use.held - use.together]
    joined = [key for key in keys if key in use.together]
    modifiers = [key for key in keys if key in use.modifiers - use.held]
    others = [key for key in keys if key not in use.held | use.modifiers]
    layer = f"the layer{'s' if len(use.layers) > 1 else ''} {quoted(use.layers)}" if held else ""
    parts = [
        *_part(held, f"holds {layer}", f"hold {layer}"),
        *_part(modifiers, "is a modifier", "are modifiers"),
        *_part(joined, "is one of a `together`", "are pressed together"),
        *_part(others, "is pressed", "are pressed"),
    ]
    return listed(parts)


def _part(keys: list[str], one: str, many: str) -> list[str]:
    return [f"{quoted(keys)} {one if len(keys) == 1 else many}"] if keys else []


def _more(ghosts: GhostReport) -> Iterator[Note]:
    others = len(ghosts.used) - 1
    if others:
        do = "does" if others == 1 else "do"
        yield Note(f"{counted(others, 'more combination')} that it uses {do} so")


def _helps(context: Context, ghosts: GhostReport) -> list[str]:
    enough, all_of_them = ghosts.for_keymap.keys, ghosts.for_all.keys
    helps = [diodes_help(context, enough, "no combination that this keyboard uses makes a ghost")]
    if len(all_of_them) > len(enough):
        helps.append(diodes_help(context, all_of_them, "no combination of keys makes a ghost"))
    return helps
