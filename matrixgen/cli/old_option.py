"""Names that an option had before: still taken, and not in the help."""

from __future__ import annotations

import argparse


def old_option(
    parser: argparse.ArgumentParser, name: str, destination: str, *, action: str = "store"
) -> None:
    """Take the old name of an option that is declared already, and say nothing of it.

    :param destination: the attribute in which the option's value is.
    """
    default = parser.get_default(destination)
    parser.add_argument(
        name, action=action, dest=destination, default=default, help=argparse.SUPPRESS
    )
