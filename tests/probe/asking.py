"""Questions at the bench, asked until nothing more is learned."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from matrixgen.bench.questions.questions import Answer, Question, Questions


def asked_until_one_is_left(
    questions: Questions, answer: Callable[[Question], Answer]
) -> Sequence[Question]:
    """Ask until nothing more tells the worlds apart; return what was asked."""
    asked = []
    while len(questions.left) > 1 and (question := questions.next()):
        questions.take(question, answer(question))
        asked.append(question)
    return asked
