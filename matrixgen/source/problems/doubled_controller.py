"""# controller named twice

## What it does
Finds a controller that the statement `controller` names a second time.

## Why it matters
Each controller gets an output folder of its own, and each line a pin on each controller: two of the
same name could not be told apart.

## Example
```keys
keyboard "Heron"
  controller stick-32u4, stick-32u4
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
```

## Reference
`grammar/README.md`, "Several controllers".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-controller", Severity.ERROR, __doc__ or "")
