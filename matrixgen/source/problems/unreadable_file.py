"""# unreadable file

## What it does
Finds a file that is not there, is a folder, or may not be read.

## Why it matters
Nothing can be said about a keyboard whose file cannot be opened.

## Example
```sh
matrixgen check no-such-file.keys
```

## Do instead
```sh
matrixgen check heron.keys
```

## Reference
`grammar/README.md`, the section "The file".
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("unreadable-file", Severity.ERROR, __doc__ or "")
