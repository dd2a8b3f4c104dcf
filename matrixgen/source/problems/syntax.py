"""# line that cannot be read

## What it does
Finds a line that follows no pattern of its block, and marks the first word that does not fit. The
other lines are read as usual.

## Why it matters
A line that is guessed at would give another keyboard than the one that was meant.

## Example
```keys
wiring
  drive columns sense rows
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
`grammar/keys.lark`, and in words `grammar/README.md`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("syntax", Severity.ERROR, __doc__ or "")
