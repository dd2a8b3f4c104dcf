"""A probe that goes on after the last key: it asks until one explanation is left.

Each question is the one that tells most of what is left apart: a key that was not pressed, two keys
held down together, or a measurement.
"""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.bench.dialogues.answers import command_in, words_of
from matrixgen.bench.dialogues.probing import Probing
from matrixgen.bench.faults.netlist import NONE, Pairs
from matrixgen.bench.faults.suspects import Suspects
from matrixgen.bench.questions.questions import Answer, Question, Questions, worlds
from matrixgen.bench.verdicts.verdict import Verdict, narrowed, verdict_of
from matrixgen.model.prose import counted

COMMANDS = ("skip", "stop")
YES, NO = ("y", "yes"), ("n", "no")
MEASURED = words_of(COMMANDS, "y | n")
HELD = words_of(COMMANDS, "Enter once both are down")
PRESSED = words_of(COMMANDS)


class Asking(Probing):
    """A probe under way, and then its questions; `verdict` is None until all that ended.

    `question` is the one that is open.
    """

    def __init__(self, suspects: Suspects, rest: Pairs, *, in_order: bool = False) -> None:
        super().__init__(suspects, rest, in_order=in_order)
        self._suspects = suspects
        self._verdict: Verdict | None = None
        self._questions: Questions | None = None
        self._held: Pairs = NONE
        self.question: Question | None = None

    @property
    def verdict(self) -> Verdict:
        """What explains all that was seen, as far as the answers leave it."""
        verdict, asked = self._verdict or verdict_of(self._suspects, self.result), self._questions
        return narrowed(verdict, asked.all, asked.left) if asked else verdict

    @property
    def is_unplugged(self) -> bool:
        """Whether only typed lines are waited for: nobody measures while power is on."""
        return self.question is not None and self.question.kind == "measure"

    @property
    def holds(self) -> bool:
        """Whether a key that joins one that is held down counts."""
        return self.question is not None and self.question.kind == "hold"

    def begins(self) -> Iterator[str]:
        """Yield what to say first."""
        yield from super().begins()
        yield from self._goes_on()

    def pressed(self, pairs: Pairs) -> Iterator[str]:
        """Take a press."""
        if self.question is None:
            yield from super().pressed(pairs)
            yield from self._goes_on()
        elif self.question.kind == "press":
            yield from self._answered_by(pairs)
        elif self.question.kind == "hold":
            self._held |= pairs
            yield f"{self.shown(self._held)}: type Enter once both are down"
        else:
            yield f"nothing is to be pressed now ({MEASURED})"

    def typed(self, text: str) -> Iterator[str]:
        """Take a line that was typed."""
        word = text.strip()
        command = command_in(text, COMMANDS, () if self.question else self.board.keys)
        if self.question is None:
            yield from super().typed(text)
            if command != "stop":
                yield from self._goes_on()
        elif command == "stop":
            self.question, self.is_over = None, True
        elif command == "skip":
            yield from self._next_question()
        elif self.question.kind == "measure":
            if word.lower() in (*YES, *NO):
                yield from self._answered_by(word.lower() in YES)
            else:
                yield f"type one of: {MEASURED}"
        elif not word:
            yield from self._answered_by(self._held)
        else:
            yield f"type one of: {HELD if self.holds else PRESSED}"

    def _goes_on(self) -> Iterator[str]:
        """Begin to ask, once every key was seen or passed over."""
        if not self.is_over or self._verdict:
            return
        self._verdict = verdict_of(self._suspects, self.result)
        if self._verdict.unexplained or self._verdict.is_whole:
            return
        left = worlds(self.board, self._verdict.causes)
        self._questions = Questions(self.board, left, self.result)
        if len(left) > 1:
            yield f"{counted(len(left), 'explanation')} so far; each answer leaves fewer"
            yield from self._next_question()

    def _answered_by(self, answer: Answer) -> Iterator[str]:
        assert self.question and self._questions
        if self.question.kind == "press" and isinstance(answer, frozenset):
            self.seen[self.question.keys[0]] = answer
        if self._questions.take(self.question, answer):
            yield f"{counted(len(self._questions.left), 'explanation')} left"
        else:
            yield "none of the explanations says so: it changes nothing"
        yield from self._next_question()

    def _next_question(self) -> Iterator[str]:
        assert self._questions
        self._held = NONE
        is_one = len(self._questions.left) == 1
        was_plugged_in = not self.is_unplugged
        self.question = None if is_one else self._questions.next()
        if was_plugged_in and self.is_unplugged:
            yield "unplug the keyboard now: the rest is for the meter and your eyes"
        self.is_over = self.question is None
        if self.question:
            yield self._asks(self.question)

    def _asks(self, question: Question) -> str:
        if question.measurement:
            return f"{question.measurement.asks} ({MEASURED})"
        names = [f"`{self.board.keys[key]}`" for key in question.keys]
        if question.kind == "press":
            return f"press {names[0]} ({PRESSED})"
        return f"hold {names[0]} and {names[1]} down together ({HELD})"
