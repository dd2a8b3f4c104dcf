"""# action named as a key

## What it does
Finds an action whose name is spelt exactly as a key's word.

## Why it matters
In a cell, the word could then mean the key or the action. (A name that differs in capitals, such as
`copy`, is allowed, and where it is defined it comes first.)

## Example
```keys
actions
  Copy = Ctrl+C
```

## Do instead
```keys
actions
  copy = Ctrl+C
```

## Reference
`grammar/README.md`, the block `actions`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("action-named-as-usage", Severity.ERROR, __doc__ or "")
