"""# no such controller

## What it does
Finds a `controller` that is no built-in profile.

## Why it matters
Without a profile nothing is known of the pins: which exist, which the chip needs for itself, and
which can pull up. No check of the wiring and no firmware is possible.

## Example
```keys
keyboard "Pad"
  controller stick-32u5
```

## Do instead
`matrixgen boards` lists the built-in profiles. A profile of your own is named by its path, in
quotes, as in `controller "my-board.json"`; the path starts from the folder of the `.keys` file.
```keys
keyboard "Pad"
  controller stick-32u4
```

## Reference
`boards/profile.schema.json` describes every field of a profile.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unknown-controller", Severity.ERROR, __doc__ or "")
