"""# two keys at one crossing

## What it does
Finds keys that share both their row and their column.

## Why it matters
Where a row and a column meet there is room for one key: the firmware cannot tell two switches
there apart.

## Example
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A B
```

## Do instead
Move one of the keys to another row or another column.
```keys
wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   A B
  column c0          on PB0   A
  column c1          on PB1   B
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Line, Note, Problem, Severity
from matrixgen.rules.context import Context, Visit

PROBLEM = Problem("two-keys-at-one-crossing", Severity.ERROR, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each key that meets its lines where an earlier key does."""
    rows, columns = context.visits["row"], context.visits["column"]
    first: dict[tuple[str, str], Visit] = {}
    for name, row_visits in rows.items():
        column_visits = columns.get(name, [])
        if len(row_visits) != 1 or len(column_visits) != 1:
            continue  # other rules tell of a key with too few lines or too many
        row, column = row_visits[0], column_visits[0]
        earlier = first.setdefault((row.line.name.text, column.line.name.text), column)
        if earlier is not column:
            yield PROBLEM.at(
                column.word.span,
                f"`{name}` and `{earlier.word}` are both where `{row.line.name}` meets "
                f"`{column.line.name}`",
                help=_free_crossing(context, name, row.line, column.line),
                notes=[
                    Note(f"`{earlier.word}` is here on `{column.line.name}`", earlier.word.span),
                    Note(f"`{row.line.name}` visits `{name}` here", row.word.span),
                ],
            )


def _free_crossing(context: Context, name: str, row: Line, column: Line) -> str:
    """Return the help: a crossing without a key, on the same row, or column, if there is one."""
    taken = {
        (row_visit.line.name.text, column_visit.line.name.text)
        for key, row_visits in context.visits["row"].items()
        for row_visit in row_visits
        for column_visit in context.visits["column"].get(key, [])
    }
    wiring = context.keyboard.wiring
    near = [(row, other) for other in wiring.of_axis("column")]
    near += [(other, column) for other in wiring.of_axis("row")]
    near += [(one, other) for one in wiring.of_axis("row") for other in wiring.of_axis("column")]
    for one, other in near:
        if (one.name.text, other.name.text) not in taken:
            return f"move `{name}` to where `{one.name}` meets `{other.name}`, which has no key"
    return f"every crossing has a key: give `{name}` a new row or column wire"
