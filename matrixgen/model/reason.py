"""Why the system refused, in words that fit our messages."""

from __future__ import annotations

from matrixgen.reading import Refused


def reason_of(error: Exception) -> str:
    """Return what the system says of an error, with a small first letter."""
    said = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return said[:1].lower() + said[1:] or "no reason is given"


def helps_of(error: Exception) -> tuple[str, ...]:
    """Return what can be done about an error, where that is known."""
    return error.helps if isinstance(error, Refused) else ()
