"""# controller without firmware

## What it does
Stops a build for a controller whose pins are known, but for whose chip there is no firmware.

## Why it matters
`check` can tell whether the wiring fits its pins; there would be nothing to load on it.

## Example
```keys
keyboard "Pad"
  controller "pins-only.json"
```

## Do instead
`matrixgen boards` says which controllers have firmware. A profile of your own gets it by naming a
`port`: the folder of its chip family under `templates/firmware/ports`.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
`boards/profile.schema.json`, property `port`.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("controller-without-firmware", Severity.ERROR, __doc__ or "")
