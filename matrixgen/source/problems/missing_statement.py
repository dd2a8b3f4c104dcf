"""# missing statement

## What it does
Finds a block `keyboard` without a `controller`, and a `plate` without a `line`.

## Why it matters
Pins, memory and clock all follow from the controller; without keys there is nothing to wire.

## Example
```keys
keyboard "Heron"
  debounce 5 ms
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 5 ms
```

## Reference
`grammar/README.md`, the block `keyboard`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("missing-statement", Severity.ERROR, __doc__ or "")
