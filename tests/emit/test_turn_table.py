"""What the reader counts of the table of strokes is what the table has."""

from __future__ import annotations

from matrixgen.emit.turn_view import turn_view
from matrixgen.model import InTurn
from matrixgen.source.phrases.in_turn import OWN_PLACES
from tests.plate.plates import read

TEXT = """\
keyboard "Pad"
  controller atmega32u4
  computer   de

plate
  line A B C D

layer base
  A = type "Zwölf"
  B = Ctrl+K, then Enter
  C = Ctrl+K, then wait 100 ms, then type "é"
  D = A, then wait 2550 ms, then B, then wait 10 ms, then C
"""


def test_no_action_takes_more_rows_than_the_reader_counts():
    keyboard = read("pad.keys", TEXT)
    actions = [one for one in keyboard.every_action if isinstance(one, InTurn)]
    own = [turn_view(keyboard, {one: 1}).length - len(list(one.moves)) for one in actions]
    assert own == [OWN_PLACES if one.types_text else OWN_PLACES - 1 for one in actions]
    assert len(own) == 4
