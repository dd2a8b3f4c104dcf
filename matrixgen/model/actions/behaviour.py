"""What every action can be asked."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from typing import TYPE_CHECKING, Any, Literal, Self

from matrixgen.record import Record, changed
from matrixgen.usages import modifier_names, word_of
from matrixgen.usages.key_stroke import KeyStroke

if TYPE_CHECKING:
    from matrixgen.model.actions import Action


PressWords = Callable[[KeyStroke], str]
"""What a press is called: by its places, or by what a computer makes of it."""


def by_place(stroke: KeyStroke) -> str:
    """Return modifiers and key as one word, such as `Ctrl+C`, by the words for usages."""
    key = [word_of(stroke.usage)] if stroke.usage else []
    return "+".join([*modifier_names(stroke.modifiers), *key])


Lasts = Literal["while down", "until pressed again", "for the next key", "for good"]
"""When a layer that an action turns on ends.

One for the next key whose own key is pressed twice is on until that is pressed again; one for good
lies on the base layer until another layer does.
"""


class LayerTurn(Record):
    """A layer that an action turns on, and until when."""

    layer: str
    lasts: Lasts


class LayerEnd(Record):
    """A layer that an action turns off, None for each one, where it is on for as long as said."""

    layer: str | None
    lasts: Lasts


class Behaviour(Record):
    """What a key does. The answers here are those of an action that does nothing of the kind."""

    @property
    def phrase(self) -> str:
        """The action in the words of the language, as the block `actions` has it after `=`."""
        return self.said(by_place)

    def said(self, words: PressWords) -> str:
        """Return its phrase where presses have other words, those of its parts too.

        Every behaviour says one of the two.
        """
        return self.phrase

    @property
    def turns_on(self) -> tuple[LayerTurn, ...]:
        """The layers that it turns on, those of its parts not included."""
        return ()

    @property
    def turns_off(self) -> tuple[LayerEnd, ...]:
        """The layers that a press of it turns off, those of its parts not included.

        One that it turns on and off is turned on where it is off.
        """
        return ()

    @property
    def sends(self) -> tuple[int, ...]:
        """The usages of the keyboard page that it holds down, those of its parts not included."""
        return ()

    @property
    def is_modifier(self) -> bool:
        """Whether it holds down modifiers and nothing else, its parts aside."""
        return False

    @property
    def does_nothing(self) -> bool:
        """Whether a key with it is dead on purpose."""
        return False

    @property
    def decides_after_ms(self) -> int | None:
        """How long it takes at most to say which of its parts a press means; None for at once."""
        return None

    @property
    def heeds_hands(self) -> bool:
        """Whether it tells keys of the other hand from those of its own."""
        return False

    @property
    def parts(self) -> tuple[Action, ...]:
        """The actions that it contains."""
        return ()

    def with_layers(self, names: Mapping[str, str]) -> Self:
        """Return the same with other layers' names, new ones by old ones, in its parts too."""
        names_of_fields: tuple[str, ...] = self.__match_args__
        fields: dict[str, Any] = {field: getattr(self, field) for field in names_of_fields}
        new = dict(fields)
        for field, value in fields.items():
            if field == "layer":
                new[field] = names.get(value, value)
            elif isinstance(value, Behaviour):
                new[field] = value.with_layers(names)
        return changed(self, **new) if new != fields else self

    @property
    def starts_boot_loader(self) -> bool:
        """Whether it ends the keyboard's life on USB, those of its parts not included."""
        return False
