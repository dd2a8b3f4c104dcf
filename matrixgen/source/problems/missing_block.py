"""# missing block

## What it does
Finds a file without one of the blocks `keyboard`, `plate` and `wiring`.

## Why it matters
The controller, the keys and their wires are the least that firmware can be made from. The blocks
`actions` and `layer` may be left out.

## Example
```keys whole
plate
  line A B
```

## Do instead
```keys whole
keyboard "Heron"
  controller stick-32u4

plate
  line A B

wiring
  row    r0 on PD0  A B
  column c0 on PB0  A
  column c1 on PB1  B
```

## Reference
`grammar/README.md`, the section "The file".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("missing-block", Severity.ERROR, __doc__ or "")
