"""# image over flash

## What it does
Compares the linked image with the controller's flash, less the boot loader's share at its top.

## Why it matters
An image that reaches into the boot loader can't be loaded, or destroys the loader, and then only a
programmer on the ISP pins brings the chip back.

## Example
```keys
keyboard "Pad"
  controller "tiny-flash.json"
```

## Do instead
Name a layer's changes in a list instead of giving it many cells of its own, share actions between
keys, drop a layer, or take a controller with more flash.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
The profile's `flash_bytes` and `boot_loader_bytes`, from the chip's datasheet (`matrixgen boards
NAME`).
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("image-over-flash", Severity.ERROR, __doc__ or "")
