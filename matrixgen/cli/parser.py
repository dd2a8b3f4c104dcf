"""The parser of a command's options: what it refuses is also said to a script."""

from __future__ import annotations

import argparse
from typing import NoReturn

from matrixgen.cli.complain import BAD_USE_SLUG
from matrixgen.cli.said import Complaint, note_complaint


class Parser(argparse.ArgumentParser):
    """One that remembers what is wrong with a command line."""

    def error(self, message: str) -> NoReturn:
        """Print what is wrong, and leave with 2."""
        helps = (f"`{self.prog} --help` describes every option",)
        note_complaint(Complaint(BAD_USE_SLUG, message, helps))
        super().error(message)
