"""What came of probing a board, and the file that would make up for it."""

from __future__ import annotations

from matrixgen.bench.board import Board
from matrixgen.bench.cure import edits_of
from matrixgen.bench.diagnose import Explanation
from matrixgen.bench.observe import Seen
from matrixgen.bench.verdict import Verdict
from matrixgen.boards import Profile
from matrixgen.model import Design
from matrixgen.record import Record
from matrixgen.source.edits import edited


class Probed(Record, kw_only=True):
    """A file, its controller by its place among those of the file, what was seen, the verdict."""

    design: Design
    profile: Profile
    place: int
    board: Board
    seen: Seen
    verdict: Verdict

    def cured_text(self, cause: Explanation) -> str | None:
        """Return the file's text that is right for what a cause says; None where none is."""
        edits = edits_of(self.board, self.design, self.profile, self.place, cause)
        return edited(self.design.source, edits) if edits else None
