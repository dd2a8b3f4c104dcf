"""The program, run inside a test's process."""

from tests.cli.conftest import program

__all__ = ["program"]
