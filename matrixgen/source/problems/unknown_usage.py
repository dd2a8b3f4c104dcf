"""# unknown word in a cell

## What it does
Finds a cell, or a part of one, that is neither a usage of the keyboard page nor the name of an
action.

## Why it matters
Firmware sends numbers. A word without a number would have to be dropped in silence.

## Example
```keys
layer numbers
  A = Entr
```

## Do instead
```keys
layer numbers
  A = Enter
```

## Reference
HID Usage Tables, section 10, keyboard page (0x07); the table of words in `grammar/README.md`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-usage", Severity.ERROR, __doc__ or "")
