"""# key given two actions in a layer

## What it does
Finds a key that a layer's list names twice.

## Why it matters
Only one of the two could be right, and nothing says which.

## Example
```keys
layer numbers
  A = 1   B = 2
  A = 3
```

## Do instead
```keys
layer numbers
  A = 1   B = 2
  C = 3
```

## Reference
`grammar/README.md`, the block `layer`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-cell", Severity.ERROR, __doc__ or "")
