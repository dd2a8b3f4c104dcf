r"""# file that is not UTF-8

## What it does
Finds the first byte of a file that is no UTF-8 text: an image, a word processor's file, or a text
that an editor saved in an older encoding.

## Why it matters
Names and texts in the file go to USB and to the pin table letter by letter. A guess at the
encoding would change them.

## Example
```sh
printf 'keyboard "Caf\351"\n' > cafe.keys && matrixgen check cafe.keys
```

## Do instead
```sh
iconv -f latin1 -t utf-8 cafe.keys > cafe-utf8.keys && matrixgen check cafe-utf8.keys
```

## Reference
RFC 3629, UTF-8.
"""

from matrixgen.model.diagnostic import Problem, Severity

PROBLEM = Problem("not-utf8", Severity.ERROR, __doc__ or "")
