"""Running the program `git`: what it printed, or why it could not be asked."""

from __future__ import annotations

import os
import subprocess

from matrixgen.failure import Failure
from matrixgen.model.reason import reason_of
from matrixgen.record import Record

NO_REPOSITORY = "not a git repository"
"""What git says where there is none, in the language `C`."""

_PLAIN = {
    "LC_ALL": "C",
    "GIT_OPTIONAL_LOCKS": "0",
    "GIT_TERMINAL_PROMPT": "0",
    "GIT_GLOB_PATHSPECS": "0",
    "GIT_ICASE_PATHSPECS": "0",
    "GIT_NOGLOB_PATHSPECS": "0",
}
"""Words that can be compared, nothing written or asked for by the way, and paths that are names."""

_ALWAYS = ("--no-pager", "--literal-pathspecs", "-c", "core.fsmonitor=false")
"""What every call has: a repository's own settings can name programs that git would run."""


class GitRan(Record):
    """What git printed and its exit status: 0 is fine."""

    status: int
    out: bytes
    said: str

    @property
    def lines(self) -> tuple[str, ...]:
        """The lines that it printed."""
        text = self.out.decode("utf-8", "replace").removesuffix("\n")
        return tuple(text.split("\n")) if text else ()

    @property
    def problem(self) -> Failure:
        """Return its complaint, in our words where we have better ones."""
        if NO_REPOSITORY in self.said:
            help = "go to the folder that your file is in"
            return Failure("this folder is in no git repository", help)
        lines = self.said.strip().splitlines()
        said = next((one for one in lines if one.startswith("fatal: ")), (lines or [""])[0])
        return Failure(f"git says: {said.removeprefix('fatal: ') or 'nothing'}")


def run_git(*words: str, stdin: bytes = b"", most: int | None = None) -> GitRan:
    """Run git in the current folder; `Failure` where it cannot be run, or its status is above most.

    :param most: the greatest exit status that is fine; any is where it is not given.
    """
    try:
        ran = subprocess.run(
            ["git", *_ALWAYS, *words],
            input=stdin,
            capture_output=True,
            check=False,
            env={**os.environ, **_PLAIN},
        )
    except FileNotFoundError as error:
        help = "install git, or give two files instead"
        raise Failure("the program `git` was not found", help) from error
    except (OSError, ValueError) as error:
        raise Failure(f"git cannot be run: {reason_of(error)}") from error
    found = GitRan(ran.returncode, ran.stdout, ran.stderr.decode("utf-8", "replace"))
    if most is not None and not 0 <= found.status <= most:
        raise found.problem
    return found


def ask_git(*words: str, stdin: bytes = b"", most: int | None = None) -> GitRan:
    """Do as `run_git`, but where it raises return that nothing was printed."""
    try:
        return run_git(*words, stdin=stdin, most=most)
    except Failure as failure:
        return GitRan(-1, b"", failure.text)


def lines_of(*words: str) -> tuple[str, ...]:
    """Return the lines that git prints; none where it cannot tell."""
    return ask_git(*words, most=0).lines


def commit_of(revision: str, *at: str) -> str | None:
    """Return the name of the commit that a word for a revision leads to; None if it is none.

    :param at: words that git is given before the command, such as the folder to run in.
    """
    words = ("rev-parse", "--verify", "--quiet", "--end-of-options", f"{revision}^{{commit}}")
    lines = lines_of(*at, *words)
    return lines[-1] if lines else None  # git 2.39 prints the end of options as well
