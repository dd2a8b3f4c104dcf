"""A key of the consumer page, or one that tells the computer to sleep."""

from __future__ import annotations

from matrixgen.model.actions.behaviour import Behaviour
from matrixgen.usages.media import media_word


class Media(Behaviour):
    """Hold down one usage of the consumer page (0x0C) or one of the system controls (page 0x01)."""

    page: int
    usage: int

    @property
    def phrase(self) -> str:
        """Its word, such as `VolumeUp`."""
        return media_word(self.page, self.usage)
