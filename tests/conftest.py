"""Options of the whole suite, and the folder that its workers share.

What the program builds in a test is compiled once a run, by whichever worker comes first: the key
is the tree, the compiler and its flags, so that another file is another image. A test that is about
the compiling itself asks for `compiles_anew`. The routes of a plate are found once, too.
"""

import gc
import os
import shutil
import signal
import tempfile
from collections.abc import Generator

import pytest
from hypothesis import settings

from matrixgen.jobs import images
from matrixgen.routing import back
from matrixgen.toolchain import compile_tree
from tests import few, made_once, turns
from tests.amounts import IS_LONG
from tests.emulators.images import compiled_once
from tests.program import Program
from tests.repository import ENVIRONMENT, FOREIGN, Repository
from tests.routes import routed_once
from tests.spent import Spent, folder_of

settings.register_profile("suite", deadline=None, derandomize=True)
settings.register_profile("long", deadline=None, print_blob=True)
settings.load_profile("long" if IS_LONG else "suite")

LONG_FIRST = ("browser", "examples", "emulators", "compare", "cli", "toolchain", "firmware")
"""Folders whose tests take long: last of all, one of them would leave the other worker idle.

Those of the browser are one group, which one worker has from the beginning.
"""


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
    config.addinivalue_line("markers", f"{turns.MARK}(chip): the suite runs each with one compiler")
    config.addinivalue_line("markers", f"{turns.CHIPS_MARK}: the suite runs each on one AVR chip")
    config.addinivalue_line("markers", f"{few.MARK}(number): the suite runs so many of its cases")
    config.pluginmanager.register(Spent())
    # a shell lets what it starts in the background ignore Ctrl+C, and so do all that those start
    signal.signal(signal.SIGINT, signal.default_int_handler)
    for name in ("FORCE_COLOR", "NO_COLOR"):  # what is printed is compared, letter by letter
        os.environ.pop(name, None)
    images.compile_tree = compiled_once
    back._routes = routed_once


@pytest.hookimpl(hookwrapper=True)
def pytest_collection() -> Generator[None]:
    """Keep the garbage collector off the tests themselves, which are ten thousand and all stay.

    It went through them again and again: half of what a test in Python took. What a test throws
    away hardly has circles, so that it need not look after each 700 things either.
    """
    gc.disable()
    yield
    gc.freeze()
    gc.set_threshold(50_000, 20, 50)
    gc.enable()


@pytest.hookimpl(optionalhook=True)
def pytest_xdist_make_scheduler(config, log):
    """Hand out the tests in parts."""
    from tests.parts import InParts  # only here: a run without workers need not have their package

    config.option.loadscopereorder = False
    scheduler = InParts(config, log)
    scheduler.one_by_one = tuple(f"tests/{name}/" for name in LONG_FIRST)
    return scheduler


def pytest_collection_modifyitems(config, items):
    """Leave out what other cases stand for, and let what takes long begin first."""
    for stood_for in () if IS_LONG else (turns.left_out, few.left_out):
        others = stood_for(items)
        config.hook.pytest_deselected(items=[item for item in items if item in others])
        items[:] = [item for item in items if item not in others]
    places = {name: place for place, name in enumerate(LONG_FIRST)}
    items.sort(key=lambda item: places.get(folder_of(item.nodeid), len(places)))


@pytest.fixture
def program(tmp_path, capsys, monkeypatch) -> Program:
    """The program, in an empty folder."""
    monkeypatch.chdir(tmp_path)
    return Program(tmp_path, capsys, monkeypatch)


@pytest.fixture
def git_environment(monkeypatch, tmp_path_factory) -> None:
    """Let git know nothing of this computer's user."""
    for name in FOREIGN:
        monkeypatch.delenv(name, raising=False)
    for name, value in ENVIRONMENT.items():
        monkeypatch.setenv(name, value)
    monkeypatch.setenv("HOME", str(tmp_path_factory.mktemp("home")))


@pytest.fixture
def repository(git_environment, program, monkeypatch) -> Repository:
    """A repository in the current folder of the program."""
    return Repository(program.folder, monkeypatch)


@pytest.fixture
def compiles_anew(monkeypatch: pytest.MonkeyPatch) -> None:
    """Let what the program builds be compiled, although a test has had it from the compiler."""
    monkeypatch.setattr(images, "compile_tree", compile_tree)


def _remove_folder():
    shutil.rmtree(os.environ.pop(made_once.FOLDER), ignore_errors=True)
