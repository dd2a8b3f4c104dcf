"""# unknown layer

## What it does
Finds an action that holds or latches a layer which the file does not have.

## Why it matters
The key would do nothing.

## Example
```keys
actions
  more = hold layer numbrs

layer numbers
  A = 1
```

## Do instead
```keys
actions
  more = hold layer numbers

layer numbers
  A = 1
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-layer", Severity.ERROR, __doc__ or "")
