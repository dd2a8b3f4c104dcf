"""Why something was not done, in words for whoever asked for it."""

from __future__ import annotations


class Failure(Exception):
    """What cannot be done as it was asked for: why, and what helps; a command ends with it.

    A script gets the same under `slug`: `bad-use` is of what is wrong with a command line, or with
    what it needs, and not with a line of a file. `status` is the exit status of the command.
    """

    def __init__(self, text: str, *helps: str, slug: str = "bad-use", status: int = 2) -> None:
        super().__init__(text)
        self.text, self.helps, self.slug, self.status = text, helps, slug, status
