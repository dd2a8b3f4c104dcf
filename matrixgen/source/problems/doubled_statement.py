"""# doubled statement

## What it does
Finds a second statement of a kind that can stand only once: `controller`, `debounce`, `maker`,
`usb`, `boot-loader hold`, `boot-loader double reset`, `drive`, `diodes`, `settle`, and an offset of
a `line`.

## Why it matters
Of two answers to the same question, one is wrong.

## Example
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 5 ms
  debounce 8 ms
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 8 ms
```

## Reference
`grammar/README.md`, the block `keyboard`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("doubled-statement", Severity.ERROR, __doc__ or "")
