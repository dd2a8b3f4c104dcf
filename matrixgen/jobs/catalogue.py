"""Every problem that any room can report, by slug: for `explain`, `allow` and SARIF.

The rules are loaded for every check. The other rooms' pages are files, and one of them is read only
if it is asked for.
"""

from __future__ import annotations

from functools import cache

from matrixgen.boards.problems import PROBLEMS as OF_BOARDS
from matrixgen.jobs.problems import PROBLEMS as OF_JOBS
from matrixgen.model import Problem
from matrixgen.model.old_slugs import current_slug
from matrixgen.rehearse.problems import PROBLEMS as OF_REHEARSE
from matrixgen.rules.registry import PROBLEMS as OF_RULES
from matrixgen.source.problems import PROBLEMS as OF_SOURCE

PAGES = (OF_SOURCE, OF_BOARDS, OF_JOBS, OF_REHEARSE)


def find_problem(slug: str) -> Problem | None:
    """Return the problem of a slug, old names too, or None where no room has one."""
    slug = current_slug(slug)
    of_rules = (problem for problem in OF_RULES if problem.slug == slug)
    return next(of_rules, None) or next((found for p in PAGES if (found := p.get(slug))), None)


@cache
def catalogue() -> dict[str, Problem]:
    """Return every problem there is, by slug, in alphabetical order."""
    problems = (*OF_RULES, *(problem for pages in PAGES for problem in pages.all()))
    return {problem.slug: problem for problem in sorted(problems, key=lambda one: one.slug)}


def page(problem: Problem) -> str:
    """Return a problem's page, Markdown, with its slug and severity in the title."""
    body = problem.page.strip().split("\n", 1)[1]
    return f"# {problem.severity.value}[{problem.slug}]: {problem.title}\n{body}"
