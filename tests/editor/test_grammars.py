"""The colours for editors are made from the grammar; the page has lines to be copied."""

from __future__ import annotations

import json

import pytest

from matrixgen.source.statements import BLOCKS, KEYWORDS
from tests.editor.grammars import (
    GRAMMAR,
    TEXTMATE,
    VIM,
    plain_words,
    textmate,
    units,
    vim,
    words_of_block,
)
from tests.editor.page import lines_for

MAKE = "make them again: `python -m tests.editor.grammars`"


def test_the_grammars_for_editors_are_those_that_our_own_makes():
    assert TEXTMATE.read_text(encoding="utf-8") == textmate(), MAKE
    assert VIM.read_text(encoding="utf-8") == vim(), MAKE


@pytest.mark.parametrize("block", BLOCKS)
def test_each_word_of_a_block_is_there(block):
    assert {*KEYWORDS[block], block} <= set(words_of_block(block))
    for text, words in ((textmate(), words_of_block(block)), (vim(), plain_words(block))):
        plain = text.replace("\\", "")
        assert all(word in plain for word in words)


def test_a_unit_with_a_capital_is_no_word_where_keys_are():
    for block in BLOCKS:
        assert not any(word[0].isupper() for word in plain_words(block))
    assert {"ms", "mm"} <= set(units()) and not {"on", "to"} & set(units())


@pytest.mark.parametrize("language", ["lua", "vim", "elisp", "toml"])
def test_the_page_has_the_lines_for_each_editor(language):
    assert "language-server" in lines_for(language)


def test_the_folder_for_vs_code_names_the_files_that_are_copied_into_it():
    made = json.loads((GRAMMAR / "vscode/package.json").read_text(encoding="utf-8"))
    (language,), (grammar,) = made["contributes"]["languages"], made["contributes"]["grammars"]
    assert (GRAMMAR / "vscode" / language["configuration"]).is_file()
    assert (GRAMMAR / grammar["path"]).name == TEXTMATE.name
    assert (GRAMMAR / "vscode" / made["main"]).is_file()
    json.loads((GRAMMAR / "vscode" / language["configuration"]).read_text(encoding="utf-8"))
