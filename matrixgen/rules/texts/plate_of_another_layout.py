"""# plate of another layout than the US one

## What it does
Finds a plate whose letters are those of a QWERTZ or AZERTY keyboard, in a file that does not say
what the computer is set to.

## Why it matters
Keys send positions, and without `computer` a letter names the position that it has on a US
keyboard. So on a German computer the key `Z` types Y, and on a French one the key `A` types Q.

## Example
```keys whole
keyboard "Pad"
  controller atmega32u4

plate
  line Q W E R T Z

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   Q to Z
  column c0          on PB0   Q
  column c1          on PB1   W
  column c2          on PB2   E
  column c3          on PB3   R
  column c4          on PB4   T
  column c5          on PB5   Z
```

## Do instead
```keys whole
keyboard "Pad"
  controller atmega32u4
  computer   de

plate
  line Q W E R T Z

wiring
  drive columns, sense rows
  diodes 1N4148, band toward columns
  row    r0          on PD0   Q to Z
  column c0          on PB0   Q
  column c1          on PB1   W
  column c2          on PB2   E
  column c3          on PB3   R
  column c4          on PB4   T
  column c5          on PB5   Z
```
Where the computer really is set to a US layout, write `computer us`.

## Reference
`grammar/README.md`, "What the computer is set to". X11's layouts `de` and `fr` have the keys so.
"""

from collections.abc import Iterator, Sequence

from matrixgen.model import Diagnostic, Key, Layer, Problem, Severity
from matrixgen.model.plate import stem_of
from matrixgen.record import Record
from matrixgen.rules.context import Context

PROBLEM = Problem("plate-of-another-layout", Severity.WARNING, __doc__ or "")


class Arrangement(Record):
    """Where a layout has its first letters, and what its key `shown` types on `computer`.

    Each of `rows` is a stretch of letters that a split plate may have on its own.
    """

    rows: tuple[str, ...]
    shown: str
    types: str
    computer: str
    called: str


ARRANGEMENTS = (
    Arrangement(("QWERT", "ZUIOP"), "Z", "Y", "de", "German"),
    Arrangement(("AZERT", "YUIOP"), "A", "Q", "fr", "French"),
)


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding where the plate has the letters of such a layout."""
    keyboard = context.keyboard
    if keyboard.computer is not None:
        return
    letters = [key for key in keyboard.keys if _is_letter(_letter_of(key))]
    text = "".join(map(_letter_of, letters))
    for one in ARRANGEMENTS:
        together = one.rows[0] + one.rows[1][0]
        if together in text or all(row in text for row in one.rows):
            key = _first(letters, one.shown)
            if not _is_given(keyboard.layers[0], key):
                yield _finding(key, one, together)


def _finding(key: Key, one: Arrangement, together: str) -> Diagnostic:
    return PROBLEM.at(
        key.name.span,
        f"this plate reads {together}, but without `computer` letters are US places: "
        f"on a {one.called} computer, `{key.name}` types {one.types}",
        help=f"say what the computer is set to, as in `computer {one.computer}`, "
        "or `computer us` if it is a US layout",
        about=[key.name.text],
    )


def _letter_of(key: Key) -> str:
    """Return a key's name without its tag, as a capital."""
    return stem_of(key.name.text).upper()


def _is_letter(name: str) -> bool:
    return len(name) == 1 and name.isascii() and name.isalpha()


def _first(keys: Sequence[Key], letter: str) -> Key:
    return next(key for key in keys if _letter_of(key) == letter)


def _is_given(base: Layer, key: Key) -> bool:
    """Whether the file says what a key does: then it may well say so for its computer."""
    cell = base.by_key.get(key.name.text)
    return cell is not None and cell.given
