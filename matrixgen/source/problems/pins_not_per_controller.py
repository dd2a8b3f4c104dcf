"""# pins not one for each controller

## What it does
Finds a line that ends on more pins than the file has controllers, or on fewer.

## Why it matters
In a file of several controllers each line names its pin on the first one, then on the second, and
so on. With one too few, nobody can tell which controller it is missing for.

## Example
```keys
keyboard "Heron"
  controller stick-32u4, rp2040-40pin

wiring
  drive columns, sense rows
  row    r0 on PD1, GP2  A B C D
  column c0 on PD0       A C
  column c1 on PD4, GP4  B D
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4, rp2040-40pin

wiring
  drive columns, sense rows
  row    r0 on PD1, GP2  A B C D
  column c0 on PD0, GP3  A C
  column c1 on PD4, GP4  B D
```

## Reference
`grammar/README.md`, "Several controllers".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("pins-not-per-controller", Severity.ERROR, __doc__ or "")
