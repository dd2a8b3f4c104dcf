"""# unknown key

## What it does
Finds a wire, a diode's exception or a layer that names a key which the plate does not have.

## Why it matters
The key is named once, on the plate. Another spelling is another key.

## Example
```keys
layer numbers
  A = 1
  G = 2
```

## Do instead
```keys
layer numbers
  A = 1
  B = 2
```

## Reference
`grammar/README.md`, the section "Names".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-key", Severity.ERROR, __doc__ or "")
