"""What a load asks of whoever shows it: text out, and questions to the maker."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from contextlib import AbstractContextManager
from typing import Protocol


class Talk(Protocol):
    """The maker, as a load sees them."""

    def tell(self, text: str) -> None:
        """Show a line at once."""

    def choose(self, question: str, options: Sequence[str]) -> int:
        """Return the place of the option that the maker takes.

        Raises `Failure` where they take none, or cannot be asked.
        """

    def agree(self, question: str) -> bool:
        """Return whether the maker agrees; False where they cannot be asked."""

    def progress(self, what: str, steps: int) -> AbstractContextManager[Callable[[], object]]:
        """Show how far a piece of work is; what it yields is called at each step."""
