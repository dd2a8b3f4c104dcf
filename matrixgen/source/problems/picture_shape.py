"""# picture that is not the plate's shape

## What it does
Finds a picture with more or fewer lines than the plate, or a line with more or fewer cells than
the plate's line has keys. Gaps, widths and clusters do not count.

## Why it matters
With one cell missing, every key after it would get its neighbour's action.

## Example
```keys
layer numbers
  1 2
  3
```

## Do instead
```keys
layer numbers
  1 2
  3 ~
```

## Reference
`grammar/README.md`, the block `layer`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("picture-shape", Severity.ERROR, __doc__ or "")
