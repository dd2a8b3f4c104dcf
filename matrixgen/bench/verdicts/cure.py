"""Telling the file instead of moving leads: pins that lines are on, as an edit."""

from __future__ import annotations

from matrixgen.bench.faults.board import Board
from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.observe import netlist_with
from matrixgen.boards import Profile, word_for
from matrixgen.model import Design, Edit


def edits_of(
    board: Board, design: Design, profile: Profile, place: int, explanation: Explanation
) -> tuple[Edit, ...]:
    """Return the edits that make a file say where its leads are; none where that cures nothing.

    `place` is that of the controller among those that the file names.
    """
    is_of_leads = all(effect.what in ("moved", "swapped") for effect in explanation.effects)
    if explanation.exchanges or not is_of_leads:
        return ()
    leads = netlist_with(board, *explanation.effects).leads
    if len(set(leads)) < len(leads):  # two wires on one pin: no file may say so
        return ()
    words = {board.name(line): design.pins[board.name(line)][place] for line in range(len(leads))}
    written = [word.text for word in words.values()]
    edits = []
    for line, number in enumerate(leads):
        if number is not None and number != line:
            pin = profile.pin(board.pins[number])
            text = word_for(pin, profile, written) if pin else board.pins[number]
            edits.append(Edit(words[board.name(line)].span, text))
    return tuple(edits)
