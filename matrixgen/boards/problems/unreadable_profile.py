"""# profile that cannot be read

## What it does
Finds a controller profile that cannot be opened, is not UTF-8 text or is not JSON.

## Why it matters
Without a profile nothing is known of the pins. JSON has no comments and allows no comma after the
last entry of a list, which are the two usual slips.

## Example
```json
{ "name": "my-board", }
```

## Do instead
```json
{ "name": "my-board" }
```

## Reference
RFC 8259, The JavaScript Object Notation (JSON) Data Interchange Format.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unreadable-profile", Severity.ERROR, __doc__ or "")
