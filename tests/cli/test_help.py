"""`matrixgen help TOPIC`: the reference by section, with a pager only on a terminal."""

from __future__ import annotations

import pytest

from matrixgen.cli.help import topics
from matrixgen.resources import resource
from tests.terminal import Terminal

REFERENCE = (resource("grammar") / "README.md").read_text("utf-8")


def test_every_section_is_a_topic_and_all_but_the_first_lines_are_in_one():
    sections = topics()
    assert {"wiring", "knobs", "a tap and a hold", "the canonical form"} <= sections.keys()
    largest = "\n".join(text for text in sections.values() if text.startswith("## "))
    rest = REFERENCE[REFERENCE.index("\n## ") :]
    assert largest.split() == rest.split()


@pytest.mark.parametrize(
    ("topic", "first"),
    [
        ("wiring", "## `wiring`"),
        ("WIRING", "## `wiring`"),
        ("tap and a hold", "### A tap and a hold"),
        ("boot-loader", "## `keyboard`"),
        ("check", "usage: matrixgen check"),
    ],
)
def test_a_topic_is_printed(program, topic, first):
    ran = program("help", *topic.split())
    assert (ran.status, ran.err) == (0, "")
    assert ran.out.startswith(first)


def test_without_a_topic_all_are_listed(program):
    ran = program("help")
    assert ran.status == 0
    assert "usage: matrixgen COMMAND" in ran.out
    assert all(f"\n  {topic}\n" in ran.out for topic in topics())


@pytest.mark.parametrize(
    ("topic", "help"),
    [
        ("wirng", "`wiring` has a similar name"),
        ("chekc", "`check` has a similar name"),
        ("the", "it may be one of"),
        ("zzz", "`matrixgen help` lists the topics"),
    ],
)
def test_another_topic_is_bad_use(program, topic, help):
    ran = program("help", topic)
    assert (ran.status, ran.out) == (2, "")
    assert help in ran.err


def test_a_long_topic_goes_through_the_pager_on_a_terminal(tmp_path):
    terminal = Terminal("help", "wiring", PAGER="sed s/^/paged:/")
    assert terminal.status() == 0
    assert b"paged:## `wiring`" in terminal.said


def test_a_short_topic_does_not():
    terminal = Terminal("help", "another", "base", PAGER="sed s/^/paged:/", size=(200, 90))
    assert terminal.status() == 0
    assert b"### Another base" in terminal.said and b"paged:" not in terminal.said
