"""# statement in the wrong place

## What it does
Finds a statement that stands in a block it does not belong to, or in the first column, where only
a block can start, and a block that is indented.

## Why it matters
Each fact has one place, so that a change to the file shows by its block what kind of change it is:
one for the soldering iron, or one for the firmware alone.

## Example
```keys
plate
  debounce 5 ms
  line A B
  line C D
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 5 ms

plate
  line A B
  line C D
```

## Reference
`grammar/README.md`, which lists the statements of each block.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("misplaced-statement", Severity.ERROR, __doc__ or "")
