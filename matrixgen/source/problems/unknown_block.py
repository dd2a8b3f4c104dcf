"""# unknown block

## What it does
Finds a line in the first column that opens none of the five blocks.

## Why it matters
A line in the first column ends the block before it. A misspelt block would hide all its lines.

## Example
```keys
layr numbers
  A = 1
```

## Do instead
```keys
layer numbers
  A = 1
```

## Reference
`grammar/README.md`, the section "The file".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-block", Severity.ERROR, __doc__ or "")
