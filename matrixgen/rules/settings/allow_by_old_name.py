"""# old name in an `allow`

## What it does
Finds an `allow` that names a warning by a name that it had in an earlier version of matrixgen.

## Why it matters
The `allow` still works. But `matrixgen check` prints the new name, so a reader who looks for one
of the two does not find the other.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  allow      pin-with-second-duty PE2
```

## Do instead
Write the new name; `matrixgen check --fix` does.
```keys
keyboard "Pad"
  controller atmega32u4
  allow      pin-with-second-function PE2
```

## Reference
`matrixgen explain` lists every name.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Edit, Fix, Problem, Severity
from matrixgen.rules.context import Context

PROBLEM = Problem("allow-by-old-name", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield one finding for each `allow` that is not written with the name of today."""
    for allowance in context.allowances:
        slug = allowance.slug
        if allowance.written != slug.text:
            instead = f"write `{slug}` for `{allowance.written}`"
            yield PROBLEM.at(
                slug.span,
                f"`{allowance.written}` is now called `{slug}`",
                help=f"write `{slug}`",
                fix=Fix(instead, (Edit(slug.span, slug.text),)),
            )
