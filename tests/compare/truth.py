"""What a comparison, and the facts of two files, say of an edit: held to what is built of them."""

from __future__ import annotations

from matrixgen.compare import Comparison
from matrixgen.compare.fact_lines import fact_lines
from matrixgen.jobs.compare import compared
from matrixgen.model.work import WORKS
from tests.compare.tables import tables_of
from tests.texts import examined


def compare_texts(old: str, new: str) -> Comparison:
    return compared(examined(old), examined(new))


def lines_of(text: str) -> list[str]:
    """Return the lines of a file's facts."""
    design = examined(text).design
    assert design
    return fact_lines(design)


def works_of(old: str, new: str) -> set[str]:
    """Return the works of the lines of facts that differ."""
    return {line.split("]")[0][1:] for line in set(lines_of(old)) ^ set(lines_of(new))}


def most_work(old: str, new: str) -> str:
    """Return the most work of the lines of facts that differ."""
    works = works_of(old, new)
    return next((one for one in WORKS if one in works), "cosmetic")


def assert_is_told_as(old: str, new: str, work: str, *, is_other: bool) -> None:
    """Assert that an edit is told as that work, and as one of the image just where that is so."""
    found = compare_texts(old, new)
    told = [(one.kind, one.text) for one in found.changes]
    assert found.kind == work, told
    if not (examined(old).is_sound and examined(new).is_sound):
        return  # a band against the scan: there is no image of it
    assert (tables_of(old) != tables_of(new)) == is_other, "the truth is not what is built"
    assert any(change.needs_image for change in found.changes) == is_other, told
