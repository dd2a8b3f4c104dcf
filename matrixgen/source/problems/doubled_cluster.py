"""# doubled cluster

## What it does
Finds a name that two clusters have.

## Why it matters
A finding or a drawing that names a cluster has to mean one.

## Example
```keys
plate
  cluster left at 0, 0
    line A C
  cluster left at 3, 0
    line B D
```

## Do instead
```keys
plate
  cluster left at 0, 0
    line A C
  cluster right at 3, 0
    line B D
```

## Reference
`grammar/README.md`, the block `plate`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-cluster", Severity.ERROR, __doc__ or "")
