"""A file that is open in an editor: its text, and what is found in it, step by step."""

from __future__ import annotations

from collections.abc import Iterator
from functools import cached_property
from pathlib import Path

from matrixgen.editor.file_words import FileWords
from matrixgen.editor.kept_rules import KeptRules
from matrixgen.jobs.examine import Examined, concluded, read_and_mounted
from matrixgen.model import Diagnostic, SourceText
from matrixgen.named_files import NamedFiles
from matrixgen.source.tree import FileTree
from matrixgen.source.tree_reader import tree_of


class OpenText:
    """One state of a file's text, and what is made of it when it is first asked for."""

    def __init__(self, path: str, folder: Path, text: str) -> None:
        """`folder` is where profiles are looked for that the file names."""
        self.source, self.folder = SourceText(path, text), folder
        self._named = NamedFiles()

    @cached_property
    def tree(self) -> FileTree:
        """The tree that keeps every character."""
        return tree_of(self.source)

    @cached_property
    def words(self) -> FileWords:
        """Its words by what they are."""
        return FileWords(self.source.path, self.tree)

    @cached_property
    def read(self) -> Examined:
        """What is read of it, with its controllers, by no rule."""
        with self._named.noted():
            return self.read_as(self.source.original)

    def read_as(self, new: str) -> Examined:
        """Return what is read, by no rule, of another text in its place."""
        return read_and_mounted(self.source.path, new, self.folder)

    @property
    def is_old(self) -> bool:
        """Whether a file that it names has changed since it was read."""
        return self._named.now() != self._named.then


class OpenFile:
    """A file while it is edited. `now` is its text; what was found before is kept if it holds."""

    def __init__(self, path: str, folder: Path, text: str) -> None:
        self.path, self.folder = path, folder
        self.now = OpenText(path, folder, text)
        self._rules = KeptRules()

    def change(self, text: str) -> None:
        """Take another text."""
        self.now = OpenText(self.path, self.folder, text)

    def forget(self) -> None:
        """Read again all that the file names: it may have changed."""
        self.now = OpenText(self.path, self.folder, self.now.source.original)

    def check(self) -> Iterator[Examined | None]:
        """Yield what is found: once, or first without what takes long, and then all.

        Each None is where whoever waits may stop, or do something else first.
        """
        read = self.now.read
        yield None
        design = read.design
        if design is None:
            yield read
            return
        found: list[Diagnostic] = []
        asked = self._rules.asked(design, read.mounted)
        late = [one for one in asked if self._rules.is_slow(one)]
        for one in asked:
            if late and one is late[0]:
                yield concluded(read, design, found, {rule.rule.PROBLEM.slug for rule in late})
            found += self._rules.found(one)
            yield None
        yield concluded(read, design, found)

    def examined(self) -> Examined:
        """Return all that is found in it."""
        *_, last = (one for one in self.check() if one is not None)
        return last
