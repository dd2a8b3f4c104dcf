"""Names that warnings had before: still valid in `allow`, and `check --fix` writes the new ones.

A warning that is renamed gets a row here. Errors need none: they cannot be allowed.
"""

from __future__ import annotations

OLD_SLUGS = {
    "line-without-keys": "wire-without-keys",
    "pin-with-second-duty": "pin-with-second-function",
    "usage-that-hosts-ignore": "usage-that-computers-ignore",
    "wire-without-way": "wire-without-route",
}
"""The name that a warning has now, by each that it had."""


def current_slug(slug: str) -> str:
    """Return the name that a finding has now, which is mostly the one that is given."""
    return OLD_SLUGS.get(slug, slug)
