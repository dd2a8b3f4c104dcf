"""# unknown colour of a wire

## What it does
Finds a colour after `wire` that the standard for marking wires does not have.

## Why it matters
The pin table prints the colour, and it should be a word that is on the reel.

## Example
```keys
wiring
  row    r0 on PD0 wire crimson  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Do instead
```keys
wiring
  row    r0 on PD0 wire red  A B
  row    r1 on PD1  C D
  column c0 on PB0  A C
  column c1 on PB1  B D
```

## Reference
IEC 60757, colour codes for wires, in full words (from memory).
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-colour", Severity.ERROR, __doc__ or "")
