"""# key without an action

## What it does
Finds a key whose name is the word of no usage and which `layer base` gives no action.

## Why it matters
The key would be dead.

## Example
```keys
plate
  line A B
  line C K1

wiring
  row    r0 on PD0  A B
  row    r1 on PD1  C K1
  column c0 on PB0  A C
  column c1 on PB1  B K1
```

## Do instead
```keys
plate
  line A B
  line C K1

wiring
  row    r0 on PD0  A B
  row    r1 on PD1  C K1
  column c0 on PB0  A C
  column c1 on PB1  B K1

layer base
  K1 = Enter
```

## Reference
`grammar/README.md`, the section "Names".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("key-without-action", Severity.ERROR, __doc__ or "")
