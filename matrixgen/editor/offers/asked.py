"""What is known of the place for which words are to be offered."""

from __future__ import annotations

from functools import cached_property

from matrixgen.boards import Profile, load_profile
from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.open_file import OpenText
from matrixgen.editor.place import Place, words_of_line
from matrixgen.jobs.examine import Examined, examine_text
from matrixgen.model import SourceText, Word
from matrixgen.source.letters import name_of_key
from matrixgen.source.patterns import pattern
from matrixgen.source.statements import BLOCKS
from matrixgen.source.tree_reader import tree_of

SIZE = r"(?<=.):[0-9.x]*$"


def key_of(word: str) -> str:
    """Return the name of a key from how a line of the plate has it, with its size."""
    return name_of_key(pattern(SIZE).sub("", word))


class Cursor(Place):
    """A cursor in a file, and what the rest of the file says without this statement."""

    def __init__(self, text: OpenText, line: int, column: int) -> None:
        super().__init__(text.source, (line, column))
        self._text = text

    @cached_property
    def last_line(self) -> int:
        """The last line of the statement."""
        line = self.line
        while pattern(r"[ \t]+and(?=[ \t])").match(self.source.line(line + 1)):
            line += 1
        return line

    @cached_property
    def _without(self) -> str:
        """The text with empty lines, or a block's shortest first line, instead of the statement."""
        lines = list(self.source.lines)
        empty = [""] * (self.last_line - self.first_line + 1)
        words = self.source.line(self.first_line).split()
        if self.is_header and words and words[0] in BLOCKS:
            empty[0] = BLOCKS[words[0]].form
        lines[self.first_line - 1 : self.last_line] = empty
        return "\n".join(lines)

    @cached_property
    def rest_of_file(self) -> FileWords:
        """The words of all other statements."""
        words = FileWords(self.source.path, tree_of(SourceText(self.source.path, self._without)))
        own = range(self.first_line, self.last_line + 1)
        words.all = tuple(one for one in words.all if one.statement.line not in own)
        return words

    @cached_property
    def examined(self) -> Examined:
        """What is found in the file without this statement."""
        return examine_text(self.source.path, self._without, self._text.folder)

    @cached_property
    def words_after(self) -> tuple[str, ...]:
        """The words and signs of the statement behind the cursor."""
        first = self.source.line(self.line)[self.column - 1 + len(self.rest) :]
        lines = [first, *(self.source.line(n) for n in range(self.line + 1, self.last_line + 1))]
        return tuple(word for line in lines for word in words_of_line(line))

    def goes_on(self, word: str) -> bool:
        """Whether there are words behind the cursor, and they can be read after this one."""
        return bool(self.words_after) and self.is_read_with((word, *self.words_after))

    @property
    def rule_word(self) -> str:
        """The word that the statement begins with."""
        return self.words_before[0] if self.words_before else ""

    @cached_property
    def own_keys(self) -> tuple[str, ...]:
        """The keys that the statement lists besides, runs in full."""
        each = ([*map(key_of, some)] for some in (self.words_before, self.words_after))
        return tuple(key for some in each for key in self.rest_of_file.in_full(some))

    @property
    def word_before(self) -> str:
        """The word or sign before the one that is being written."""
        return self.words_before[-1] if self.words_before else ""

    @property
    def word_after(self) -> str:
        """The word or sign behind the cursor."""
        return self.words_after[0] if self.words_after else ""

    @property
    def key_before(self) -> str:
        """The same as a key's name."""
        return key_of(self.word_before)

    @cached_property
    def profiles(self) -> tuple[Profile | None, ...]:
        """What is known of each controller that the file names."""
        named = [one for one in self.rest_of_file.all if one.rule == "controller"]
        words = [one for one in named if one.terminal in ("BOARD_NAME", "STRING")]
        return tuple(self._profile(one) for one in words)

    def _profile(self, one: WordAt) -> Profile | None:
        name = one.text.strip('"')
        return load_profile(Word(name, one.span), self._text.folder)[0]
