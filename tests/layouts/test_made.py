"""The files of `grammar/layouts` are what the script makes of X11's data, byte for byte."""

from __future__ import annotations

import re

import pytest

from matrixgen.layouts import layout_named, layout_names
from tests.layouts import make
from tests.layouts.chosen import NAMES
from tests.layouts.writing import is_sound, pretty
from tests.layouts.x11 import version
from tests.pages import page


@pytest.fixture(scope="module")
def made():
    return make.files()


def test_the_files_are_there_and_no_others(made):
    assert sorted(path.name for path in make.FOLDER.glob("*.json")) == sorted(made)


@pytest.mark.few(20)
@pytest.mark.parametrize("name", sorted([make.COMPOSE, *map(make.file_name, NAMES)]))
def test_a_file_made_again_is_the_same(name, made):
    text = (make.FOLDER / name).read_text("utf-8")
    assert text == made[name], f"made of another xkb-data than {version()}: see tests/layouts"
    assert is_sound(text)


def test_at_least_34_layouts_have_the_names_that_their_files_give():
    assert len(layout_names()) >= 34
    assert set(layout_names()) == set(NAMES)
    for name in NAMES:
        layout = layout_named(name)
        assert layout is not None and layout.name == name


def test_the_page_beside_the_files_names_the_release():
    assert re.search(rf"xkb-data {re.escape(version())}\b", page("grammar/layouts/README.md"))


def test_signs_that_a_screen_does_not_show_are_escaped():
    assert pretty({"keys": {"2C": [" ", "\u00a0", "\u0301"]}}).count("\\u") == 2
    assert not is_sound('"\u00a0"')
