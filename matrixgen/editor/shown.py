"""The findings that an editor shows, file by file, and who found them.

Several open files may name one profile, and each of them finds what is wrong with it. It is shown
once, for as long as one of them is open.
"""

from __future__ import annotations

from collections.abc import Iterable, Mapping

from matrixgen.model import Diagnostic, in_file_order

Findings = tuple[Diagnostic, ...]


class FindingsShown:
    """What was found in each file, by who found it."""

    def __init__(self) -> None:
        self._by_finder: dict[str, dict[str, Findings]] = {}

    def post(self, finder: str, found: Iterable[Diagnostic]) -> Mapping[str, Findings]:
        """Take what was found in a file and in those that it names, all of them by path.

        Return what is to be shown of each file of which that may have changed.
        """
        by_path: dict[str, list[Diagnostic]] = {finder: []}
        for one in found:
            by_path.setdefault(one.span.path, []).append(one)
        before = self._by_finder.get(finder, {})
        self._by_finder[finder] = {path: tuple(some) for path, some in by_path.items()}
        return self._of({**before, **by_path})

    def take_down(self, finder: str) -> Mapping[str, Findings]:
        """Forget what was found by a file that is closed, and return the same."""
        return self._of(self._by_finder.pop(finder, {finder: ()}))

    def _of(self, paths: Iterable[str]) -> Mapping[str, Findings]:
        each = self._by_finder.values()
        return {
            path: tuple(in_file_order(one for found in each for one in found.get(path, ())))
            for path in paths
        }
