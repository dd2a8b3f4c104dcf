"""Why a board was not loaded, in words for its maker."""

from __future__ import annotations

from matrixgen.failure import Failure

AGAIN = "nothing is broken: the boot loader was not changed; load again"
"""What helps where a load stopped half way."""


class NoAnswer(Failure):
    """Nothing at the other end of a line speaks as a boot loader does."""
