"""One mutant in a process of its own, which may crash or hang."""

from __future__ import annotations

import os
import signal
from collections.abc import Callable

HANGS_AFTER_S = 3
SURVIVED, KILLED, BROKEN = 0, 1, 2


def is_killed(
    differs: Callable[[Callable[[], None]], bool], hangs_after_s: int = HANGS_AFTER_S
) -> bool:
    """Whether what is tried in a child differs, crashes or hangs."""
    child = os.fork()
    if child == 0:
        _try(differs, lambda: signal.alarm(hangs_after_s) and None)
    _, status = os.waitpid(child, 0)
    code = os.waitstatus_to_exitcode(status)
    assert code != BROKEN, "the trial itself is broken"
    return code != SURVIVED


def _try(differs: Callable[[Callable[[], None]], bool], still: Callable[[], None]) -> None:
    """Never returns; `still` says that it does not hang."""
    code = BROKEN
    try:
        still()
        code = KILLED if differs(still) else SURVIVED
    except AssertionError:
        code = KILLED
    except BaseException:
        import traceback

        traceback.print_exc()
    finally:
        os._exit(code)
