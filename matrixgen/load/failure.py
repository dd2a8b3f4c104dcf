"""Why a board was not loaded, in words for its maker."""

from __future__ import annotations

AGAIN = "nothing is broken: the boot loader was not changed; load again"
"""What helps where a load stopped half way."""


class LoadFailure(Exception):
    """A load that did not come about: what is wrong, and what helps."""

    def __init__(self, text: str, *helps: str) -> None:
        super().__init__(text)
        self.text, self.helps = text, helps


class NoAnswer(LoadFailure):
    """Nothing at the other end of a line speaks as a boot loader does."""
