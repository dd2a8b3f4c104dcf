"""The order in which a light's parts are shown to somebody who mixed them up is the grammar's."""

from __future__ import annotations

import re
from itertools import combinations

import pytest

from matrixgen.source.cures import LIGHT_PARTS, light_in_order
from matrixgen.source.parser import parse

SAID = ("on PB0, GP3", "white", "3.0 V", "at 2 mA", "to supply", "while nav and low are on")
BLOCK = "\nwiring\n"


def test_each_part_is_one_of_the_table_s_and_in_its_order_they_read():
    assert len(SAID) == len(LIGHT_PARTS)
    assert all(re.fullmatch(part, said) for part, said in zip(LIGHT_PARTS, SAID, strict=True))
    assert not parse(f"{BLOCK}  light nav {' '.join(SAID)}\n", 10**4).mistakes


@pytest.mark.parametrize(("one", "other"), list(combinations(range(len(SAID)), 2)))
def test_two_in_the_other_order_do_not_read_and_are_shown_in_theirs(one, other):
    said = list(SAID)
    said[one], said[other] = said[other], said[one]
    line = f"  light nav {' '.join(said)}"
    assert parse(f"{BLOCK}{line}\n", 10**4).mistakes
    ((place, length, new),) = light_in_order(line, 0)
    assert (line[:place] + new + line[place + length :]).split() == [
        "light",
        "nav",
        *" ".join(SAID).split(),
    ]
