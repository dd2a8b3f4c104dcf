"""A key that does nothing."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour


class Nothing(Behaviour):
    """The key is dead on purpose."""

    @property
    def phrase(self) -> str:
        """`nothing`."""
        return "nothing"

    @property
    def does_nothing(self) -> bool:
        """It is."""
        return True
