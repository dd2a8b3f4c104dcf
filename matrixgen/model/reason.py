"""Why the system refused, in words that fit our messages."""

from __future__ import annotations


def reason_of(error: Exception) -> str:
    """Return what the system says of an error, with a small first letter."""
    said = (error.strerror if isinstance(error, OSError) else None) or str(error)
    return said[:1].lower() + said[1:] or "no reason is given"
