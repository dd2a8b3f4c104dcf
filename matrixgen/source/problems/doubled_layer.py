"""# doubled layer

## What it does
Finds a name that two layers have.

## Why it matters
A key that holds a layer names it, and has to mean one.

## Example
```keys
layer numbers
  A = 1

layer numbers
  B = 2
```

## Do instead
```keys
layer numbers
  A = 1
  B = 2
```

## Reference
`grammar/README.md`, the block `layer`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-layer", Severity.ERROR, __doc__ or "")
