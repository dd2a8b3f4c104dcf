"""# no modifier before a plus sign

## What it does
Finds a word before `+` that is no modifier.

## Why it matters
A report holds eight modifiers as bits, and keys without order. `A+B` would be two keys at once,
which is another thing than one key with a modifier.

## Example
```keys
actions
  both = A+B
```

## Do instead
```keys
actions
  both = Ctrl+B
```

## Reference
HID 1.11, appendix B.1, the first byte of the keyboard's report.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("not-a-modifier", Severity.ERROR, __doc__ or "")
