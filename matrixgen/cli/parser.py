"""The parser of a command's options: what it refuses is also said to a script; old names."""

from __future__ import annotations

import argparse
from typing import Any, NoReturn

from matrixgen.cli.said import note_failure
from matrixgen.failure import Failure


class Parser(argparse.ArgumentParser):
    """One that remembers what is wrong with a command line.

    It has its options before the terminal is measured, by what is slow to import.
    """

    def __init__(self, **more: Any) -> None:
        super().__init__(**more, formatter_class=_unmeasured)

    def error(self, message: str) -> NoReturn:
        """Print what is wrong, and leave with 2."""
        note_failure(Failure(message, f"`{self.prog} --help` describes every option"))
        super().error(message)

    def format_usage(self) -> str:
        """Return the usage, as wide as the terminal."""
        self._measure()
        return super().format_usage()

    def format_help(self) -> str:
        """Return the help, as wide as the terminal."""
        self._measure()
        return super().format_help()

    def _measure(self) -> None:
        if self.formatter_class is _unmeasured:
            self.formatter_class = argparse.HelpFormatter


def _unmeasured(prog: str) -> argparse.HelpFormatter:
    """Return what argparse looks at each option with as that is added, whatever the width."""
    return argparse.HelpFormatter(prog, width=80)


def old_option(
    parser: argparse.ArgumentParser, name: str, destination: str, *, action: str = "store"
) -> None:
    """Take an old name of an option that is declared already, and say nothing of it in the help.

    :param destination: the attribute in which the option's value is.
    """
    default = parser.get_default(destination)
    parser.add_argument(
        name, action=action, dest=destination, default=default, help=argparse.SUPPRESS
    )
