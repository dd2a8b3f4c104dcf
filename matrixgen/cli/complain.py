"""What is said of bad use: a command line that cannot be followed."""

import sys

from matrixgen.cli.fit_to_print import clean

FINE, FINDINGS, BAD_USE = 0, 1, 2
"""The exit statuses: fine, errors found, bad use or unreadable input."""


def complain(text: str, *helps: str) -> int:
    """Print what is wrong with the command line, and its cures; return the exit status for it."""
    print(f"matrixgen: {clean(text)}", file=sys.stderr)
    for help in helps:
        print(f"    help: {clean(help)}", file=sys.stderr)
    return BAD_USE
