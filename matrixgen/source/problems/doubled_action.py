"""# doubled action

## What it does
Finds a name that two actions have.

## Why it matters
A cell holds one word, and that word has to mean one thing.

## Example
```keys
actions
  copy = Ctrl+C
  copy = Ctrl+Insert
```

## Do instead
```keys
actions
  copy     = Ctrl+C
  copy-old = Ctrl+Insert
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-action", Severity.ERROR, __doc__ or "")
