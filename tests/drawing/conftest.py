"""The program, as the tests of commands have it."""

from tests.cli.conftest import program

__all__ = ["program"]
