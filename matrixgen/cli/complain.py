"""What is said of bad use: a command line that cannot be followed."""

import sys

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.said import Complaint, note_complaint

FINE, FINDINGS, BAD_USE, NOT_ENOUGH = 0, 1, 2, 3
"""The exit statuses: fine, errors found, bad use or unreadable input; of `probe`, too few keys were
pressed to say that nothing is wrong."""


BAD_USE_SLUG = "bad-use"
"""Of what is wrong with a command line, or with what it needs, and not with a line of a file."""


def complain(text: str, *helps: str, slug: str = BAD_USE_SLUG) -> int:
    """Print what is wrong with the command line, and its cures; return the exit status for it.

    A script gets the same, under `slug`.
    """
    note_complaint(Complaint(slug, text, helps))
    print(f"matrixgen: {clean(text)}", file=sys.stderr)
    for help in helps:
        print(f"    help: {clean(help)}", file=sys.stderr)
    return BAD_USE
