"""# allow without effect

## What it does
Finds an `allow` that names no check, names an error, or hides nothing: nowhere, or at one of the
places that it names.

## Why it matters
Errors cannot be allowed: they mean that the keyboard would not work. An `allow` that is no longer
needed hides the next warning of its kind. `matrixgen check --allowed` tells what each one hides.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  allow      ghost-possible
```

## Do instead
Remove it.
```keys
keyboard "Pad"
  controller atmega32u4
```

## Reference
`matrixgen explain` lists every slug.
"""

from collections.abc import Callable, Iterable, Iterator

from matrixgen.model import (
    Allowance,
    Diagnostic,
    Edit,
    Fix,
    Problem,
    Severity,
    Word,
)
from matrixgen.model.similar import similar_help
from matrixgen.record import Record

PROBLEM = Problem("allow-without-effect", Severity.WARNING, __doc__ or "")

LookUp = Callable[[str], Problem | None]
"""How the kind of mistake of a slug is found, whatever room it is of."""


class Sorted(Record):
    """Findings that are to be told, and those that the file allows."""

    told: list[Diagnostic]
    allowed: list[Diagnostic]


def sorted_by_allowance(
    allowances: Iterable[Allowance],
    found: Iterable[Diagnostic],
    look_up: LookUp,
    slugs: Callable[[], Iterable[str]],
) -> Sorted:
    """Return the findings sorted by what the file allows, and what is wrong with its allowances.

    `slugs` returns every slug there is; it is asked when one is misspelt.
    """
    findings, each = list(found), list(allowances)
    allowed = [one for one in findings if any(allows(allowance, one) for allowance in each)]
    told = [one for one in findings if one not in allowed]
    seen: list[Allowance] = []
    for allowance in each:
        told += _idle(allowance, seen, allowed, look_up, slugs)
        seen.append(allowance)
    return Sorted(told, allowed)


def allows(allowance: Allowance, found: Diagnostic) -> bool:
    """Whether an allowance is for a finding: for all of its kind, or for one of its places."""
    if found.is_error or found.slug != allowance.slug.text:
        return False
    places = {place.text for place in allowance.places}
    return not places or not places.isdisjoint(found.about)


def _idle(
    allowance: Allowance,
    seen: Iterable[Allowance],
    allowed: Iterable[Diagnostic],
    look_up: LookUp,
    slugs: Callable[[], Iterable[str]],
) -> Iterator[Diagnostic]:
    """Yield what is wrong with one allowance; `seen` are those before it."""
    slug = allowance.slug
    problem = look_up(slug.text)
    if problem is None:
        help = similar_help(slug.text, slugs()) or "`matrixgen explain` lists every slug"
        yield PROBLEM.at(slug.span, f"no check is called `{slug}`", help=help)
        return
    if checks := list(_checks_among_places(allowance, look_up)):
        yield from checks
        return
    remove = Fix(f"remove this `allow {slug}`", (Edit.removing_lines(allowance.span),))
    of_kind = [one for one in allowed if one.slug == slug.text]
    everywhere = any(one.slug.text == slug.text and not one.places for one in seen)
    if problem.severity is Severity.ERROR:
        message = f"`{slug}` is an error, which cannot be allowed"
        yield PROBLEM.at(slug.span, message, help="remove it", fix=remove)
    elif everywhere:
        message = f"`{slug}` is allowed already, everywhere"
        yield PROBLEM.at(slug.span, message, help="remove one of the two", fix=remove)
    elif not any(allows(allowance, one) for one in of_kind):
        where = " here" if not allowance.places else " at any of these places"
        message = f"there is no `{slug}`{where} to allow"
        yield PROBLEM.at(slug.span, message, help="remove it", fix=remove)
    else:
        yield from _idle_places(allowance, of_kind)


def _checks_among_places(allowance: Allowance, look_up: LookUp) -> Iterator[Diagnostic]:
    """Yield each place that is the name of a check: an `allow` has one, and then places."""
    for place in allowance.places:
        if look_up(place.text):
            yield PROBLEM.at(
                place.span,
                f"`{place}` is a check, and no place of `{allowance.slug}`",
                help=f"write `allow {place}` on a line of its own",
            )


def _idle_places(allowance: Allowance, hidden: list[Diagnostic]) -> Iterator[Diagnostic]:
    """Yield each place, or run of places, at which nothing is hidden."""
    of_span: dict[object, list[Word]] = {}
    for place in allowance.places:
        of_span.setdefault(place.span, []).append(place)
    about = frozenset[str]().union(*(one.about for one in hidden))
    for words in of_span.values():
        if about.isdisjoint(word.text for word in words):
            word = words[0]
            yield PROBLEM.at(
                word.span,
                f"there is no `{allowance.slug}` at `{word}` to allow",
                help="remove it",
                fix=Fix(f"remove `{word}` from this `allow`", (Edit(word.span, ""),)),
            )
