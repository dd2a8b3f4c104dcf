"""# list and picture in one layer

## What it does
Finds a layer that has lines of cells and lines with `KEY = CELL`.

## Why it matters
A picture gives every key a place. A list beside it would be a second place for the same fact.

## Example
```keys
layer numbers
  1 2
  3 ~
  D = 4
```

## Do instead
```keys
layer numbers
  1 2
  3 4
```

## Reference
`grammar/README.md`, the block `layer`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("list-and-picture", Severity.ERROR, __doc__ or "")
