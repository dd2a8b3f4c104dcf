"""# profile that contradicts its schema

## What it does
Finds a controller profile with a field that is missing, misspelt, doubled or of the wrong kind,
figures that contradict each other, such as a pin described twice, and a chip, a clock or a pin's
name that the named `port` has no firmware for.

## Why it matters
Every check of the wiring trusts the profile. A pin that is described wrongly is found with the
soldering iron in hand, or not at all.

## Example
```json
{ "name": "PD0", "use": "spare" }
```

## Do instead
A pin's `use` is one of `free`, `shared` and `reserved`.
```json
{ "name": "PD0", "use": "free" }
```

## Reference
`boards/profile.schema.json` describes every field; an editor that knows JSON Schema shows it while
you type.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("bad-profile", Severity.ERROR, __doc__ or "")
