"""# key without a diode

## What it does
Finds keys that `without diode` names, unless a key is the only one on its row or on its column.

## Why it matters
Current can flow backwards through a switch without a diode. With three keys of a rectangle down,
the fourth then seems pressed too.

## Example
```keys
plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  without diode A B
  row    r0 on PD0  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Do instead
```keys
plate
  line A B
  line C D

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0 on PD0  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Reference
Kirchhoff's laws on the network of switches and diodes; every pair of keys without a diode adds such
a path.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Note, Problem, Severity, Word
from matrixgen.model.prose import quoted
from matrixgen.rules.context import Context

PROBLEM = Problem("key-without-diode", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding a text line of `without diode`, those that are allowed apart."""
    allowed = {
        place.text
        for allowance in context.allowances
        if allowance.slug.text == PROBLEM.slug
        for place in allowance.places
    }
    groups: dict[tuple[int, bool], list[Word]] = {}
    told = {word.text for word in context.keyboard.wiring.reversed}
    for word in context.keyboard.wiring.without_diode:
        if word.text not in told and not _is_alone(context, word.text):  # told: -exception-twice
            told.add(word.text)
            groups.setdefault((word.span.line, word.text in allowed), []).append(word)
    for words in groups.values():
        yield _finding(context, words)


def _finding(context: Context, words: list[Word]) -> Diagnostic:
    verb = "has" if len(words) == 1 else "have"
    return PROBLEM.at(
        words[0].span.to(words[-1].span),
        f"{quoted(word.text for word in words)} {verb} no diode",
        help="solder a diode to each, band toward the "
        f"{context.keyboard.wiring.drive}s, and remove this exception",
        notes=[Note("keys pressed together with one of these can make another seem pressed")],
        about=[word.text for word in words],
    )


def _is_alone(context: Context, key: str) -> bool:
    """Whether current that comes in by one wire of a key finds no other key on the other wire."""
    visits = [*context.visits["row"][key], *context.visits["column"][key]]
    return any(len({word.text for word in visit.line.visits}) == 1 for visit in visits)
