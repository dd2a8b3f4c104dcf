"""# more than the limit

## What it does
Finds a file, a name, a text, or a number of keys, layers or wires that is larger than the language
allows: 1,000,000 bytes, names of 48 letters, texts of 126 UTF-16 units, 1,024 keys, 32 layers,
32 rows and 32 columns.

## Why it matters
The firmware keeps a row of switches and the set of layers in at most 32 bits, and a USB string
descriptor's length is one byte.

## Example
```keys
layer the-layer-for-everything-that-has-not-yet-found-another-place
  A = 1
```

## Do instead
```keys
layer everything-else
  A = 1
```

## Reference
USB 2.0, section 9.6.7, "String".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("over-the-limit", Severity.ERROR, __doc__ or "")
