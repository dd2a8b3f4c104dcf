"""# doubled block

## What it does
Finds a second block `keyboard`, `plate`, `wiring` or `actions`.

## Why it matters
One fact, one place. With two plates, nobody could say which one is on the desk.

## Example
```keys
actions
  copy = Ctrl+C

actions
  cut = Ctrl+X
```

## Do instead
```keys
actions
  copy = Ctrl+C
  cut  = Ctrl+X
```

## Reference
`grammar/README.md`, the section "The file".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-block", Severity.ERROR, __doc__ or "")
