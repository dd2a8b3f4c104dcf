"""Which way each diode points, for every mix of three kinds of key: who is seen, what cures it.

What is true stands here anew, from where each band points on the bench: current leaves a diode at
its band, sensed wires rest high and driven ones are pulled low. `networkx` finds the ways.
"""

from __future__ import annotations

import re
from itertools import product
from pathlib import Path

import networkx
import pytest

from matrixgen.jobs.fix import fixed
from matrixgen.model import Diagnostic, SourceText
from tests.texts import examined

KEYS = {"A": ("r0", "c0"), "B": ("r0", "c1"), "C": ("r1", "c0"), "D": ("r1", "c1")}
OTHER = {"row": "column", "column": "row"}
FILES = [
    (drive, band, kinds)
    for drive in ("row", "column")
    for band in ("row", "column")
    for kinds in product(("plain", "reversed", "bare"), repeat=len(KEYS))
]
AGAINST = "diode-against-scan"
GHOSTS = ("ghost-possible", "keymap-ghosts")


def written(drive: str, band: str | None, kinds: dict[str, str]) -> str:
    listed = {
        kind: [key for key, of in kinds.items() if of == kind] for kind in set(kinds.values())
    }
    lines = [f"  drive {drive}s, sense {OTHER[drive]}s"]
    lines += [f"  diodes 1N4148, band toward {band}s"] if band else []
    lines += [f"  without diode {' '.join(listed['bare'])}"] if "bare" in listed else []
    lines += [f"  reversed {' '.join(listed['reversed'])}"] if "reversed" in listed else []
    pads = (
        "  row r0 on PD0 A B\n  row r1 on PD1 C D\n  column c0 on PB1 A C\n  column c1 on PB2 B D"
    )
    plate = 'keyboard "P"\n  controller stick-32u4\n\nplate\n  line A B\n  line C D\n\nwiring\n'
    return plate + "\n".join([*lines, pads, ""])


def named(keys: str) -> set[str]:
    """The keys of a list, in which `B to D` is a run."""
    runs = re.sub(
        r"(\w) to (\w)",
        lambda run: " ".join("ABCD"["ABCD".index(run[1]) : "ABCD".index(run[2]) + 1]),
        keys,
    )
    return set(runs.split())


def bench(text: str) -> dict[str, str | None]:
    """Which wire the band of each key's diode points to; None where it has none."""
    toward = re.search(r"band toward (\w+)s", text)
    listed = {
        word: named(" ".join(re.findall(rf"^  {word} (.*)$", text, re.M)))
        for word in ("without diode", "reversed")
    }
    bands: dict[str, str | None] = {}
    for key in KEYS:
        band = toward[1] if toward else None
        bands[key] = OTHER[band] if band and key in listed["reversed"] else band
        if key in listed["without diode"]:
            bands[key] = None
    return bands


def conducting(bands: dict[str, str | None], pressed: set[str]) -> networkx.DiGraph:
    graph = networkx.DiGraph()
    graph.add_nodes_from(("r0", "r1", "c0", "c1"))
    for key in pressed:
        row, column = KEYS[key]
        if bands[key] != "row":
            graph.add_edge(row, column)
        if bands[key] != "column":
            graph.add_edge(column, row)
    return graph


def is_seen(key: str, bands: dict[str, str | None], drive: str, pressed: set[str]) -> bool:
    ends = KEYS[key] if drive == "column" else KEYS[key][::-1]
    return networkx.has_path(conducting(bands, pressed), *ends)


def drive_of(text: str) -> str:
    found = re.search(r"drive (\w+)s", text)
    assert found
    return found[1]


def unseen(text: str) -> set[str]:
    bands = bench(text)
    return {key for key in KEYS if not is_seen(key, bands, drive_of(text), {key})}


def ghosts(text: str) -> bool:
    bands, keys = bench(text), set(KEYS)
    return any(is_seen(key, bands, drive_of(text), keys - {key}) for key in KEYS)


def findings(text: str, *slugs: str) -> list[Diagnostic]:
    return [one for one in examined(text).findings if one.slug in slugs]


@pytest.mark.parametrize("drive", ["row", "column"])
def test_a_file_is_refused_just_if_a_key_can_never_be_seen(drive: str) -> None:
    sound = 0
    for _, band, kinds in (one for one in FILES if one[0] == drive):
        text = written(drive, band, dict(zip(KEYS, kinds, strict=True)))
        found = findings(text, AGAINST)
        assert bool(found) == bool(unseen(text)), text
        assert {name for one in found for name in one.about} == unseen(text), text
        sound += not found
    assert sound == 2 * 2**4  # each key bare, or as the scan wants it: with either sentence


def unnamed(text: str, keys: list[str]) -> str:
    """The text without keys after `reversed`."""
    left = [
        key for key in re.findall(r"^  reversed (.*)$", text, re.M)[0].split() if key not in keys
    ]
    line = f"  reversed {' '.join(left)}\n" if left else ""
    return re.sub(r"^  reversed .*\n", line, text, flags=re.M)


def followed(text: str, words: str, about: list[str]) -> tuple[str, set[str]]:
    """Do what a help says: return the file after it, and the keys whose diodes were turned."""
    turned = set(re.findall(r"`(\w)`", words)) if "reverse the d" in words else set()
    for statement, old in (("drive", r"drive .*"), ("band", r"band toward .*")):
        for new in re.findall(rf"`({statement} [^`]*)`", words):
            text = re.sub(old, new, text)
    if "this `reversed`" in words:
        text = unnamed(text, about)
    elif "remove `reversed`" in words:
        text = re.sub(r"^  reversed .*\n", "", text, flags=re.M)
    return text, turned


@pytest.mark.parametrize("drive", ["row", "column"])
def test_what_a_help_says_cures_and_leaves_a_file_that_says_what_is_on_the_bench(
    drive: str,
) -> None:
    tried = 0
    for _, band, kinds in (one for one in FILES if one[0] == drive):
        text = written(drive, band, dict(zip(KEYS, kinds, strict=True)))
        found = findings(text, AGAINST)
        for number in range(max((len(one.helps) for one in found), default=0)):
            after, turned = text, set()
            for one in (one for one in found if len(one.helps) > number):
                after, more = followed(after, one.helps[number], sorted(one.about))
                turned |= more
            assert after != text
            assert not findings(after, AGAINST) and not unseen(after), (text, after)
            is_slip = "not soldered" in found[0].helps[number]
            before = bench(text)
            for key in turned:
                before[key] = OTHER[before[key] or ""]
            assert is_slip or bench(after) == before, (text, after)
            tried += 1
    assert tried > 100


@pytest.mark.parametrize("drive", ["row", "column"])
def test_the_cure_of_a_ghost_ends_it(drive: str) -> None:
    cured = 0
    for _, band, kinds in (one for one in FILES if one[0] == drive):
        text = written(drive, band, dict(zip(KEYS, kinds, strict=True)))
        found = findings(text, *GHOSTS)
        if not unseen(text):
            assert bool(found) == ghosts(text), text
        if not found:
            continue
        if unseen(text):
            continue  # to be turned first: the file is told so
        done = fixed(examined(text), SourceText("pad.keys", text), Path(), GHOSTS)
        assert not findings(done.text, *GHOSTS) and not ghosts(done.text), (text, done.text)
        assert not unseen(done.text), (text, done.text)
        assert {k for k, b in bench(done.text).items() if b} >= {
            k for k, b in bench(text).items() if b
        }
        cured += 1
    assert cured == 2 * 15  # some key is bare, and the rest as the scan wants it
