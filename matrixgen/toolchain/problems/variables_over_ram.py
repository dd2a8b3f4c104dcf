"""# variables over ram

## What it does
Compares the firmware's variables with the controller's RAM, less what is kept for the stack.

## Why it matters
The stack would grow into the variables: keys would stick or the keyboard would reset, now and then
and not on the bench.

## Example
```keys
keyboard "Pad"
  controller "tiny-ram.json"
```

## Do instead
Take a controller with more RAM. Each key needs two bytes, each driven line two bytes for every
eight sensed lines, so driving the fewer lines helps a little.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
The profile's `ram_bytes`, from the chip's datasheet (`matrixgen boards NAME`).
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("variables-over-ram", Severity.ERROR, __doc__ or "")
