"""# doubled line

## What it does
Finds a name that two wires have, be they rows or columns.

## Why it matters
The pin table and the probe name wires by these names.

## Example
```keys
wiring
  row    r0 on PD0  A B
  row    r0 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Do instead
```keys
wiring
  row    r0 on PD0  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-line", Severity.ERROR, __doc__ or "")
