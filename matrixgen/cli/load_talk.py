"""The maker at a terminal, as a load sees them."""

from __future__ import annotations

import sys
from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.progress import progress_bar
from matrixgen.failure import Failure


class TerminalTalk:
    """Prints, and asks where `asks` is set and someone is there to answer."""

    def __init__(self, *, asks: bool) -> None:
        self._asks = asks

    def tell(self, text: str) -> None:
        """Print a line at once."""
        print(clean(text), flush=True)

    def choose(self, question: str, options: Sequence[str]) -> int:
        """Return the place of the option whose number is typed.

        Raises `Failure` where none is, or nobody can be asked.
        """
        shown = [f"  {number}  {clean(option)}" for number, option in enumerate(options, 1)]
        print("\n".join(shown), flush=True)
        if not self._can_ask:
            raise Failure(
                f"there are several boards: {question}", "choose with --port PORT or --mount PATH"
            )
        typed = _answer(f"{question} (1 to {len(options)}, anything else stops) ")
        if not typed.isdecimal() or not 1 <= int(typed) <= len(options):
            raise Failure("nothing was chosen, and nothing was written")
        return int(typed) - 1

    def agree(self, question: str) -> bool:
        """Return whether `y` is typed; with `--yes`, True, and False where nobody is there."""
        if not self._asks:
            return True
        return self._can_ask and _answer(f"{clean(question)} (y/n) ").lower() in ("y", "yes")

    def progress(self, what: str, steps: int) -> AbstractContextManager[Callable[[], object]]:
        """Show a bar where it takes long."""
        return progress_bar(what, steps)

    @property
    def _can_ask(self) -> bool:
        return self._asks and sys.stdin.isatty()


def _answer(question: str) -> str:
    """Return what is typed; nothing at the end of the input."""
    try:
        return input(question).strip()
    except EOFError:
        return ""
