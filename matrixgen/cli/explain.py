"""`matrixgen explain NAME`: a finding's page, or the names of all."""

from __future__ import annotations

import argparse

from matrixgen.cli.complain import FINE, complain
from matrixgen.jobs.catalogue import catalogue, page
from matrixgen.model import Problem
from matrixgen.model.old_slugs import current_slug
from matrixgen.similar import similar_help


def add_arguments(parser: argparse.ArgumentParser) -> None:
    """Declare the command's arguments."""
    parser.add_argument(
        "slug",
        nargs="?",
        metavar="NAME",
        help="a finding's name, which it has in brackets (default: list all)",
    )


def run(arguments: argparse.Namespace) -> int:
    """Print a page or the list, and return the exit status."""
    problems = catalogue()
    if arguments.slug is None:
        print(listing(problems))
        return FINE
    slug = arguments.slug.partition("[")[2] or arguments.slug  # as printed: `error[syntax]`
    slug = current_slug(slug.rstrip("]"))
    if slug not in problems:
        help = similar_help(slug, problems) or "`matrixgen explain` lists every name"
        return complain(f"no finding is called `{slug}`", help)
    print(page(problems[slug]))
    return FINE


def listing(problems: dict[str, Problem]) -> str:
    """Return one line a problem: slug, severity, title."""
    width = max(map(len, problems))
    return "\n".join(
        f"{slug:<{width}}  {problem.severity.value:<7}  {problem.title}"
        for slug, problem in problems.items()
    )
