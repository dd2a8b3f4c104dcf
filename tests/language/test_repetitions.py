"""A statement that stands twice can be removed only where the second one says nothing else."""

import pytest

from matrixgen.source import read_design
from tests.language.whole import WHOLE

ALIKE = {
    "the same words": ('maker "a"', 'maker "a"'),
    "comments and blanks": ('maker "a"  # b', 'maker\n    and   "a"'),
    "a unit that touches": ("once lasts 900 ms", "once lasts 900ms"),
}
UNLIKE = {
    "after a number sign": ('maker "a #1"', 'maker "a #2"'),
    "another order": ("boot-loader hold A D", "boot-loader hold D A"),
    "a number": ("once lasts 900 ms", "once lasts 901 ms"),
}


def fixes(one, two):
    head = "  controller stick-32u4\n"
    text = WHOLE.replace(head, f"{head}  {one}\n  {two}\n")
    (found,) = [one for one in read_design("x.keys", text)[1] if "statement" in one.slug]
    return found.fix


@pytest.mark.parametrize("name", ALIKE)
def test_a_repetition_can_be_removed(name):
    assert fixes(*ALIKE[name]) is not None


@pytest.mark.parametrize("name", UNLIKE)
def test_what_says_something_else_cannot(name):
    assert fixes(*UNLIKE[name]) is None
