"""# number out of range

## What it does
Finds a time, a length, a place or an angle that no keyboard can have: a debounce time outside 1 to
200 ms, a settling time above 1000 µs, a key narrower than 0.25 or wider than 20 key units.

## Why it matters
The firmware keeps the times in one byte each, and a slip of the keyboard, `:15` for `:1.5`, would
move every key after it.

## Example
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 500 ms
```

## Do instead
```keys
keyboard "Heron"
  controller stick-32u4
  debounce 5 ms
```

## Reference
`grammar/README.md`, which gives the range of each number.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("number-out-of-range", Severity.ERROR, __doc__ or "")
