"""Writing what came of a long dialogue into its file, whoever else wrote into that meanwhile."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.write_file import changed_lines, rewrite_file, write_bytes
from matrixgen.jobs.meanwhile import ToWrite
from matrixgen.model import SourceText


def write_back(write: ToWrite) -> None:
    """Write a text; raises `Failure`."""
    if write.now:
        rewrite_file(write.path, write.now, write.text)
    else:
        write_bytes(write.path, write.text.encode("utf-8"))


def written_lines(write: ToWrite, source: SourceText, advice: str = "") -> Iterator[str]:
    """Yield what was written where, and each line of the file that is another one now."""
    shown = clean(str(write.path))
    if write.is_merged:
        yield f"another program changed {shown} meanwhile: it has both changes now"
    if write.is_beside:
        yield (
            f"another program changed {clean(source.path)} meanwhile, in the same places: "
            f"it is left as it is, and this is written into {shown}"
        )
        yield f"`matrixgen diff {clean(source.path)} {shown}` shows how they differ"
        return
    yield f"written into {shown}{advice}:"
    yield from changed_lines(write.now or source, SourceText(source.path, write.text))
