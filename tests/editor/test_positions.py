"""Places are counted as the protocol has it: beside Python's UTF-16, and pygls' own counting."""

from __future__ import annotations

from hypothesis import given, settings
from hypothesis import strategies as st
from lsprotocol import types as lsp
from pygls.workspace import PositionCodec

from matrixgen.editor.positions import At, at, changed_text, point, span_of, stretch
from matrixgen.model import SourceText
from tests.amounts import amount

MANY = settings(max_examples=amount("MATRIXGEN_PLACES", suite=150, long=5000))
TEXTS = st.text(st.sampled_from("aé𝛑😀\n\r\t#\ufeff e\u0301"), max_size=30)


def units(text: str) -> int:
    return len(text.encode("utf-16-le")) // 2


@MANY
@given(TEXTS)
def test_each_letter_is_where_utf_16_has_it_and_back(text):
    source = SourceText("pad.keys", text)
    mark = text[:1] == "\ufeff"
    for number, line in enumerate(source.lines, 1):
        for column in range(1, len(line) + 2):
            before = ("\ufeff" if mark and number == 1 else "") + line[: column - 1]
            place = at(source, (number, column))
            assert place == (number - 1, units(before))
            assert point(source, place) == (number, column)


@MANY
@given(TEXTS, st.integers(-3, 40), st.integers(-3, 2**40), st.integers(-3, 9), st.integers(-3, 9))
def test_a_place_that_is_nowhere_is_at_the_edge(text, line, character, end_line, end_character):
    source = SourceText("pad.keys", text)
    number, column = point(source, At(line, character))
    assert 1 <= number <= len(source.lines)
    assert 1 <= column <= len(source.line(number)) + 1
    span = span_of(source, At(line, character), At(end_line, end_character))
    assert span.start <= span.end
    assert stretch(source, span).start <= stretch(source, span).end


@MANY
@given(TEXTS.filter(lambda text: "\ufeff" not in text), st.integers(0, 9), st.integers(0, 9))
def test_a_place_is_where_the_library_has_it(text, line, character):
    source = SourceText("pad.keys", text)
    lines = [one + "\n" for one in source.lines]
    if line >= len(lines):
        return
    codec = PositionCodec(lsp.PositionEncodingKind.Utf16)
    theirs = codec.position_from_client_units(lines, lsp.Position(line, character))
    assert point(source, At(line, character))[1] - 1 in (
        theirs.character,
        theirs.character - 1,  # in the middle of a letter
    )


def test_a_change_of_a_stretch_keeps_line_ends():
    text = "plate\r\n  line 𝛑 B\r\n"
    assert changed_text(text, At(1, 7), At(1, 9), "A\nC") == "plate\r\n  line A\r\nC B\r\n"
    assert changed_text(text, At(9, 9), At(9, 9), "x") == text + "x"
