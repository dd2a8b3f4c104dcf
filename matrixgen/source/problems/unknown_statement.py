"""# unknown statement

## What it does
Finds a line whose first word is no statement of its block, or of any other.

## Why it matters
Nothing is skipped in silence: a misspelt `debounce` would leave the time as it was.

## Example
```keys
keyboard "Heron"
  controller stick-32u4
  debounc    5 ms
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
  debounce   5 ms
```

## Reference
`grammar/README.md`, which lists the statements of each block.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-statement", Severity.ERROR, __doc__ or "")
