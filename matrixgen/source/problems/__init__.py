"""The kinds of mistake that reading a file can find: one file a slug, its page and nothing else.

A start with a faultless file needs none of them, so each is imported when it is first asked for.
"""

from __future__ import annotations

from importlib import import_module

from matrixgen.model.diagnostic import Problem

SLUGS = (
    # the file as a whole
    "unreadable-file",
    "not-utf8",
    "over-the-limit",
    # lines
    "syntax",
    "unknown-block",
    "unknown-statement",
    "misplaced-statement",
    "missing-block",
    "doubled-block",
    "missing-statement",
    "doubled-statement",
    "number-out-of-range",
    "doubled-controller",
    "pins-not-per-controller",
    # names
    "doubled-key",
    "unknown-key",
    "doubled-cluster",
    "doubled-line",
    "unknown-colour",
    "drive-and-sense-alike",
    "doubled-action",
    "action-named-as-usage",
    "unknown-usage",
    "not-a-modifier",
    "doubled-layer",
    "unknown-layer",
    "layer-always-on",
    # layers
    "doubled-cell",
    "list-and-picture",
    "picture-shape",
    "key-without-action",
)

PROBLEMS: tuple[Problem, ...]
"""Every problem of this room, in the order of `SLUGS`."""


def problem(slug: str) -> Problem:
    """Return the problem of this room with that slug."""
    found: Problem = import_module(f"{__name__}.{slug.replace('-', '_')}").PROBLEM
    return found


def __getattr__(name: str) -> tuple[Problem, ...]:
    """Make `PROBLEMS` when it is first asked for."""
    if name != "PROBLEMS":
        raise AttributeError(f"module {__name__!r} has no attribute {name!r}")
    globals()[name] = tuple(problem(slug) for slug in SLUGS)
    return globals()[name]  # type: ignore[no-any-return]
