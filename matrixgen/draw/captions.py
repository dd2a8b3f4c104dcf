"""The captions of many keys at once: no two actions are shown alike, and a legend explains them."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.draw.caps import LEFT_ALONE, TAP, forms_of_action
from matrixgen.draw.caption_form import CaptionForm, Legend
from matrixgen.layouts import HostLayout, KeyWords
from matrixgen.model import Action

MEANS_LEFT_ALONE = "left to the layers below"

OVER = 2
"""Characters that a caption may have more than there is room for, if the key is lost otherwise."""

BETWEEN_ENTRIES = 3
"""Spaces between two entries of a legend that are on one line."""


class Captions:
    """Gives each action a caption for its room, and remembers what a legend has to explain.

    The same action may have several captions, in different rooms. Two different actions never have
    the same one: if all forms of an action are too long or taken, it is shown by a number, such as
    `#1`, that the legend explains. With the `layout` of the computer, keys show what appears.
    """

    def __init__(self, *, between: str = TAP, layout: HostLayout | None = None) -> None:
        self._between = between
        self._words = KeyWords(layout) if layout else None
        self._phrase_of: dict[str, str] = {}
        self._first_of: dict[str, str] = {}
        self._legend_of: dict[str, Legend] = {}
        self._meaning_of: dict[str, str] = {}
        self._kept: dict[tuple[str, int], str] = {}
        self._numbers: dict[str, str] = {}

    def caption(self, action: Action | None, room: int) -> str:
        """Return what is written on a key with so many characters of room; None is left alone."""
        if action is None:
            self._legend_of[LEFT_ALONE] = ((LEFT_ALONE, MEANS_LEFT_ALONE),)
            return LEFT_ALONE
        phrase = self.phrase(action)
        asked = (phrase, room)
        if asked not in self._kept:
            best = self._best(action, room)
            self._phrase_of[best.text] = phrase
            self._legend_of[best.text] = best.legend
            self._meaning_of.update(best.legend)
            self._kept[asked] = best.text
        return self._kept[asked]

    def phrase(self, action: Action) -> str:
        """Return the whole of an action in words, presses by what appears."""
        return action.said(self._words.stroke) if self._words else action.phrase

    def legend(self, captions: Iterable[str]) -> Legend:
        """Return the short forms in these captions, and what they mean: signs, then in order."""
        used = {entry for text in captions for entry in self._legend_of.get(text, ())}
        return tuple(
            sorted(
                used,
                key=lambda one: (one[0] != LEFT_ALONE, one[0][0].isalnum(), one[0].casefold()),
            )
        )

    def _best(self, action: Action, room: int) -> CaptionForm:
        """Return the first form that fits, the shortest that nearly does, or a number."""
        phrase = self.phrase(action)
        whole = next(self._forms(action)).text
        if self._first_of.setdefault(whole, phrase) != phrase:
            return self._numbered(phrase)  # only the legend has room for what differs
        free = list(self._free(action))
        fits = next((one for one in free if one.room <= room), None)
        nearly = min(free, key=lambda one: one.room, default=None)
        if fits is None and nearly is not None and nearly.room <= room + OVER:
            fits = nearly
        return fits or self._numbered(phrase)

    def _free(self, action: Action) -> Iterator[CaptionForm]:
        """Yield the forms that mean nothing else so far."""
        phrase = self.phrase(action)
        for one in self._forms(action):
            is_free = self._phrase_of.get(one.text, phrase) == phrase
            if is_free and all(self._meaning_of.get(short, of) == of for short, of in one.legend):
                yield one

    def _forms(self, action: Action) -> Iterator[CaptionForm]:
        return forms_of_action(action, between=self._between, words=self._words)

    def _numbered(self, phrase: str) -> CaptionForm:
        number = self._numbers.setdefault(phrase, f"#{len(self._numbers) + 1}")
        return CaptionForm(number, ((number, phrase),))


def legend_lines(legend: Legend, width: int) -> list[str]:
    """Return a legend in columns, no longer than `width` if that can be."""
    entries = list(legend)
    longest = max((len(form) for form, _ in entries), default=0)
    texts = [f"{form.ljust(longest)}  {meaning}" for form, meaning in entries]
    column = max(map(len, texts), default=0) + BETWEEN_ENTRIES
    many = max(1, (width + BETWEEN_ENTRIES) // column)
    lines = [texts[place : place + many] for place in range(0, len(texts), many)]
    return ["".join(text.ljust(column) for text in line).rstrip() for line in lines]
