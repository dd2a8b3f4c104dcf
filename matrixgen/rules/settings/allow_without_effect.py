"""# allow without effect

## What it does
Finds an `allow` that names no finding, names an error, or hides nothing, in the whole file or at
one of the places that it names.

## Why it matters
Errors cannot be allowed: they mean that the keyboard would not work. An `allow` that is no longer
needed hides the next warning of its kind. `matrixgen check --allowed` lists what each one hides.

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
`matrixgen explain` lists every name.
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
from matrixgen.record import Record
from matrixgen.similar import only_similar_name, similar_help

PROBLEM = Problem("allow-without-effect", Severity.WARNING, __doc__ or "")

LookUp = Callable[[str], Problem | None]
"""How the kind of mistake of a slug is found, whatever room it is of."""


class Sorted(Record):
    """Findings that are to be shown, and those that the file allows."""

    shown: list[Diagnostic]
    allowed: list[Diagnostic]


def sorted_by_allowance(
    allowances: Iterable[Allowance],
    found: Iterable[Diagnostic],
    look_up: LookUp,
    slugs: Callable[[], Iterable[str]],
    *,
    has_all: bool = True,
) -> Sorted:
    """Return the findings sorted by what the file allows, and what is wrong with its allowances.

    `slugs` returns every slug there is; it is asked when one is misspelt. `has_all` is whether
    every rule had its say: while a file is not finished, or a controller is not known, what an
    allowance is for may be yet to come.
    """
    findings, each = list(found), list(allowances)
    allowed = [one for one in findings if any(allows(allowance, one) for allowance in each)]
    shown = [one for one in findings if one not in allowed]
    judge = _Judge(shown, allowed, look_up, slugs, has_all=has_all)
    return Sorted([*shown, *(one for allowance in each for one in judge.idle(allowance))], allowed)


def allows(allowance: Allowance, found: Diagnostic) -> bool:
    """Whether an allowance is for a finding: for all of its kind, or for one of its places."""
    if found.is_error or found.slug != allowance.slug.text:
        return False
    places = {place.text for place in allowance.places}
    return not places or not places.isdisjoint(found.about)


class _Judge:
    """Says what is wrong with one allowance after the other, in file order.

    No cure that removes one is certain: it is a decision of the maker's.
    """

    def __init__(
        self,
        shown: Iterable[Diagnostic],
        allowed: Iterable[Diagnostic],
        look_up: LookUp,
        slugs: Callable[[], Iterable[str]],
        *,
        has_all: bool,
    ) -> None:
        self._shown = tuple(shown)
        self._allowed = tuple(allowed)
        self._look_up = look_up
        self._slugs = slugs
        self._has_all = has_all
        self._everywhere: set[str] = set()

    def idle(self, allowance: Allowance) -> Iterator[Diagnostic]:
        """Yield what is wrong with an allowance."""
        slug = allowance.slug.text
        if (problem := self._look_up(slug)) is None:
            yield self._unknown(allowance.slug)
        elif checks := list(self._checks_among_places(allowance)):
            yield from checks
        elif problem.severity is Severity.ERROR:
            yield _removable(allowance, f"`{slug}` is an error, which cannot be allowed")
        elif slug in self._everywhere:
            yield _removable(allowance, f"`{slug}` is allowed already, everywhere")
        elif allowance.places:
            yield from self._idle_places(allowance)
        elif self._has_all and not self._of_kind(self._allowed, slug):
            yield _removable(allowance, f"there is no `{slug}` here to allow")
        if not allowance.places:
            self._everywhere.add(slug)

    def _unknown(self, slug: Word) -> Diagnostic:
        """Return what is said of a name that no check has; it is corrected if one was meant."""
        known = tuple(self._slugs())
        meant = only_similar_name(slug.text, known)
        return PROBLEM.at(
            slug.span,
            f"no finding is called `{slug}`",
            help=similar_help(slug.text, known) or "`matrixgen explain` lists every name",
            fix=_spelt(slug, meant) if meant else None,
        )

    def _checks_among_places(self, allowance: Allowance) -> Iterator[Diagnostic]:
        """Yield each place that is the name of a check: an `allow` has one, and then places."""
        for place in allowance.places:
            if self._look_up(place.text):
                yield PROBLEM.at(
                    place.span,
                    f"`{place}` is a finding, not a place of `{allowance.slug}`",
                    help=f"write `allow {place}` on a line of its own",
                )

    def _idle_places(self, allowance: Allowance) -> Iterator[Diagnostic]:
        """Yield each place, or run of places, at which nothing is hidden.

        Of an allowance that hides nothing at all, its name is reported instead, once.
        """
        slug = allowance.slug.text
        about = _about(self._of_kind(self._allowed, slug))
        idle = [words for words in _by_span(allowance) if about.isdisjoint(map(str, words))]
        misspelt = {words[0]: meant for words in idle if (meant := self._meant(slug, words))}
        for word, meant in misspelt.items():
            message = f"there is no `{slug}` at `{word}` to allow"
            help = f"`{meant}` has a similar name"
            yield PROBLEM.at(word.span, message, help=help, fix=_spelt(word, meant))
        if not self._has_all:
            return
        rest = [words[0] for words in idle if words[0] not in misspelt]
        if rest and len(idle) == len(_by_span(allowance)) and not misspelt:
            where = f"`{rest[0]}`" if len(rest) == 1 else "any of these places"
            yield _removable(allowance, f"there is no `{slug}` at {where} to allow")
            return
        for word in rest:
            fix = Fix(f"remove `{word}` from this `allow`", (Edit(word.span, ""),), False)
            message = f"there is no `{slug}` at `{word}` to allow"
            yield PROBLEM.at(word.span, message, help="remove it", fix=fix)

    def _meant(self, slug: str, words: list[Word]) -> str | None:
        """Return the only place of a finding like this that one word may have been meant to be."""
        if len(words) > 1:
            return None
        return only_similar_name(words[0].text, _about(self._of_kind(self._shown, slug)))

    def _of_kind(self, findings: Iterable[Diagnostic], slug: str) -> list[Diagnostic]:
        return [one for one in findings if one.slug == slug]


def _about(findings: Iterable[Diagnostic]) -> frozenset[str]:
    return frozenset[str]().union(*(one.about for one in findings))


def _by_span(allowance: Allowance) -> list[list[Word]]:
    """Return the places of an allowance, those of a run together."""
    of_span: dict[object, list[Word]] = {}
    for place in allowance.places:
        of_span.setdefault(place.span, []).append(place)
    return list(of_span.values())


def _removable(allowance: Allowance, message: str) -> Diagnostic:
    remove = (Edit.removing_lines(allowance.span),)
    fix = Fix(f"remove this `allow {allowance.slug}`", remove, is_certain=False)
    return PROBLEM.at(allowance.slug.span, message, help="remove it", fix=fix)


def _spelt(word: Word, meant: str) -> Fix:
    return Fix(f"write `{meant}` for `{word}`", (Edit(word.span, meant),))
