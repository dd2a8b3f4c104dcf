"""# lines both driven and sensed

## What it does
Finds a `drive` statement that names the same lines twice.

## Why it matters
The firmware pulls one kind of lines low, one after the other, and reads the other kind.

## Example
```keys
wiring
  drive rows, sense rows
  row    r0 on PD0  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Do instead
```keys
wiring
  drive columns, sense rows
  row    r0 on PD0  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Reference
`grammar/README.md`, the block `wiring`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("drive-and-sense-alike", Severity.ERROR, __doc__ or "")
