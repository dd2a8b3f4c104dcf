"""Options of the whole suite, and the folder that its workers share."""

import os
import shutil
import tempfile

from tests import made_once


def pytest_addoption(parser):
    parser.addoption(
        "--refresh",
        action="store_true",
        help="write the texts that tests compare with anew, for a person to read in the diff",
    )


def pytest_configure(config):
    """Make the folder of `made_once` in the first process; its workers inherit the name."""
    if made_once.FOLDER not in os.environ:
        os.environ[made_once.FOLDER] = tempfile.mkdtemp(prefix="made-once-")
        config.add_cleanup(_remove_folder)


def _remove_folder():
    shutil.rmtree(os.environ.pop(made_once.FOLDER), ignore_errors=True)
