"""# key for the layer that is always on

## What it does
Finds an action that holds or latches the layer `base`.

## Why it matters
The base layer is always on and below all others: turning it on changes nothing.

## Example
```keys
actions
  back = hold layer base
```

## Do instead
```keys
actions
  more = hold layer numbers

layer numbers
  A = 1
```

## Reference
`grammar/README.md`, the section "Which layer wins".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("layer-always-on", Severity.ERROR, __doc__ or "")
