"""# doubled key

## What it does
Finds a name that two keys of the plate have. Names that differ only in capitals are the same.

## Why it matters
Everything else refers to a key by its name: a wire that visits `Shift` has to mean one switch.

## Example
```keys
plate
  line Shift Z Shift

wiring
  row    r0 on PD0  Shift Z
  column c0 on PB0  Shift
  column c1 on PB1  Z
```

## Do instead
```keys
plate
  line Shift Z Shift.2

wiring
  row    r0 on PD0  Shift Z Shift.2
  column c0 on PB0  Shift
  column c1 on PB1  Z
  column c2 on PB2  Shift.2
```

## Reference
`grammar/README.md`, the section "Names".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-key", Severity.ERROR, __doc__ or "")
