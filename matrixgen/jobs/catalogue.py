"""Every problem that any room can report, by slug: for `explain`, `allow` and SARIF."""

from __future__ import annotations

from functools import cache

from matrixgen.model import Problem


@cache
def catalogue() -> dict[str, Problem]:
    """Return every problem there is, by slug, in alphabetical order."""
    from matrixgen.boards.problems import PROBLEMS as OF_BOARDS
    from matrixgen.rules.registry import PROBLEMS as OF_RULES
    from matrixgen.source.problems import PROBLEMS as OF_SOURCE
    from matrixgen.toolchain.problems import PROBLEMS as OF_TOOLCHAIN

    problems = (*OF_SOURCE, *OF_BOARDS, *OF_RULES, *OF_TOOLCHAIN)
    return {problem.slug: problem for problem in sorted(problems, key=lambda p: p.slug)}
