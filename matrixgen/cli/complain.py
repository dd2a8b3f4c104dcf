"""What is said of bad use: a command line that cannot be followed."""

import sys

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.said import note_failure
from matrixgen.failure import Failure

FINE, FINDINGS, BAD_USE, NOT_ENOUGH = 0, 1, 2, 3
"""The exit statuses: fine, errors found, bad use or unreadable input; of `probe`, too few keys were
pressed to say that nothing is wrong."""


def complain(text: str, *helps: str, slug: str = "bad-use") -> int:
    """Print what is wrong with the command line, and its cures; return the exit status for it."""
    return tell_failure(Failure(text, *helps, slug=slug))


def tell_failure(failure: Failure) -> int:
    """Do the same of a failure, which has its own status; a script gets it as well."""
    note_failure(failure)
    print(f"matrixgen: {clean(failure.text)}", file=sys.stderr)
    for help in failure.helps:
        print(f"    help: {clean(help)}", file=sys.stderr)
    return failure.status
