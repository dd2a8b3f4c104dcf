"""# allow without effect

## What it does
Finds a slug after `allow` that names no check, names an error, or silenced nothing.

## Why it matters
Errors cannot be allowed: they mean that the keyboard would not work. An `allow` that is no longer
needed hides the next warning of its kind.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  allow key-without-diode
```

## Do instead
Remove the slug.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
`matrixgen explain` lists every slug.
"""

from collections.abc import Iterable, Iterator, Mapping

from matrixgen.model import Diagnostic, Keyboard, Problem, Severity, Word
from matrixgen.model.similar import suggestion

PROBLEM = Problem("allow-without-effect", Severity.WARNING, __doc__ or "")


def without_allowed(
    keyboard: Keyboard, found: Iterable[Diagnostic], known: Mapping[str, Problem]
) -> list[Diagnostic]:
    """Return the findings less the warnings that the file allows, plus what is wrong with those.

    `known` holds every problem there is, by slug.
    """
    findings = list(found)
    allowed = {word.text for word in keyboard.allowed}
    silenced = {d.slug for d in findings if not d.is_error and d.slug in allowed}
    kept = [d for d in findings if d.is_error or d.slug not in allowed]
    return kept + list(_idle(keyboard.allowed, silenced, known))


def _idle(
    words: Iterable[Word], silenced: set[str], known: Mapping[str, Problem]
) -> Iterator[Diagnostic]:
    told: set[str] = set()
    for word in words:
        problem = known.get(word.text)
        if problem is None:
            help = suggestion(word.text, known) or "`matrixgen explain` lists every slug"
            yield PROBLEM.at(word.span, f"no check is called `{word}`", help=help)
        elif problem.severity is Severity.ERROR:
            yield PROBLEM.at(
                word.span, f"`{word}` is an error, which cannot be allowed", help="remove it"
            )
        elif word.text in told:
            yield PROBLEM.at(word.span, f"`{word}` is allowed twice", help="remove one of the two")
        elif word.text not in silenced:
            yield PROBLEM.at(word.span, f"there is no `{word}` here to allow", help="remove it")
        told.add(word.text)
