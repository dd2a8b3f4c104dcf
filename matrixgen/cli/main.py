"""From the words of a command line to a command and its exit status."""

from __future__ import annotations

import gc
import importlib
import itertools
import sys
from types import ModuleType

import matrixgen
from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.complain import BAD_USE, complain, tell_failure
from matrixgen.cli.fit_to_print import AS_THE_TERMINAL_CAN
from matrixgen.failure import Failure
from matrixgen.model.reason import reason_of
from matrixgen.similar import similar_help

PURPOSE = "From one text file to a hand-wired keyboard that types."


def main(arguments: list[str]) -> int:
    """Run one command line, without the program's name, and return its exit status."""
    first = arguments[0] if arguments else "--help"
    if first in COMMANDS:
        return _run(first, arguments[1:])
    if first in ("-h", "--help"):
        print(overview())
        return 0 if arguments else BAD_USE
    if first in ("-V", "--version"):
        print(f"matrixgen {matrixgen.__version__}")
        return 0
    help = similar_help(first, COMMANDS) or "`matrixgen --help` lists the commands"
    return complain(f"there is no command `{first}`", help)


def _run(name: str, arguments: list[str]) -> int:
    command = importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}")
    if "--json" in itertools.takewhile("--".__ne__, arguments):
        from matrixgen.cli.json_report import run_with_json

        return run_with_json(name, lambda: _run_with_options(command, name, arguments))
    if hasattr(command, "without_options") and not any(word.startswith("-") for word in arguments):
        plain = command.without_options(arguments)
        if plain is not None:
            return _status(command, plain)
    return _run_with_options(command, name, arguments)


def _run_with_options(command: ModuleType, name: str, arguments: list[str]) -> int:
    from matrixgen.cli.parser import Parser  # only here: to import it takes as long as to start

    parser = Parser(prog=f"matrixgen {name}", description=f"{COMMANDS[name]}.", allow_abbrev=False)
    command.add_arguments(parser)
    try:
        given = parser.parse_args(arguments)
    except SystemExit as leave:  # argparse has printed its help, or what is wrong
        return int(leave.code or 0)
    return _status(command, given)


def _status(command: ModuleType, given: object) -> int:
    """Run a command, say why it cannot do what was asked for, and return the exit status."""
    try:
        return int(command.run(given))
    except Failure as failure:
        return tell_failure(failure)


def overview() -> str:
    """Return what the program and each of its commands does."""
    width = max(map(len, COMMANDS))
    listed = "\n".join(f"  {name:<{width}}  {line}" for name, line in COMMANDS.items())
    return (
        f"{PURPOSE}\n\nusage: matrixgen COMMAND ...\n\n{listed}\n\n"
        "`matrixgen COMMAND --help` describes one command; `--version` prints the version.\n"
        "Exit status: 0 fine, 1 errors found, 2 bad use or unreadable input."
    )


def run() -> None:
    """Entry point of the program: run the command line and leave with its exit status."""
    gc.disable()  # a short life on few records: collecting costs more than it frees
    for stream in (sys.stdout, sys.stderr):
        if hasattr(stream, "reconfigure"):  # a name that the terminal cannot show is no failure
            stream.reconfigure(errors=AS_THE_TERMINAL_CAN)
    try:
        status = main(_words())
        sys.stdout.flush()
    except BrokenPipeError:  # the reader, such as `head`, has had enough
        _drop_output()
        status = 0
    except OSError as error:
        if error.filename is not None:  # of a file: not of what is printed
            raise
        _drop_output()
        status = complain(f"the output cannot be written: {reason_of(error)}")
    except KeyboardInterrupt:
        status = 130  # what shells give for a program ended by Ctrl+C
    gc.freeze()  # all that is left ends with the process: nothing of it need be searched
    sys.exit(status)


def _words() -> list[str]:
    """Return the words of the command line, as a shell would have handed them on."""
    if sys.platform != "win32":
        return sys.argv[1:]
    from matrixgen.cli.windows import expanded

    return expanded(sys.argv[1:])


def _drop_output() -> None:
    """Let the interpreter's own last flush go nowhere, or else it complains of the pipe again."""
    import os

    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
