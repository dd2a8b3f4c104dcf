"""`check --coverage` lists what no layer has a key for, and changes nothing else."""

import json

import pytest

from matrixgen.computer.coverage import not_covered
from tests.language.whole import completed
from tests.texts import GOOD, keyboard_in


def lacking(layers, group):
    return not_covered(keyboard_in(completed(layers)))[group]


def signs_typed(layers):
    signs = {chr(code) for code in range(32, 127)}
    return "".join(sorted(signs - set(lacking(layers, "signs"))))


BASE = "layer base\n  A = {} B = {} C = {} D = {}\n"

TYPED = {
    "keys alone": ("A 1 Minus Space", " -1a"),
    "a shifted key": ("Shift+1 F1 F1 F1", "!"),
    "a shifted key by the right Shift": ("RightShift+1 F1 F1 F1", "!"),
    "with another modifier it is no sign": ("Ctrl+A Ctrl+Shift+1 AltGr+E F1", ""),
    "with a Shift": ("A 1 Minus Shift", "!-1A_a"),
    "with the right Shift": ("Equal [ Comma RightShift", "+,<=[{"),
    "Shift and another modifier are no Shift": ("A 1 F1 Ctrl+Shift", "1a"),
    "the keypad": ("Keypad7 KeypadPlus KeypadSlash KeypadPeriod", "+./7"),
}


@pytest.mark.parametrize(("cells", "typed"), TYPED.values(), ids=TYPED)
def test_the_signs_that_keys_type(cells, typed):
    assert signs_typed(BASE.format(*cells.split())) == typed


MORE = {
    "a Shift for the next key": "layer base\n  A = once Shift  B = 1  C = F1  D = F1\n",
    "a Shift by a hold": "layer base\n  A = tap F1, hold Shift  B = 1  C = F1  D = F1\n",
    "a key by a tap, on a layer by a hold": (
        "layer base\n  A = hold layer two  B = Shift  C = F1  D = F1\n"
        "layer two\n  C = tap 1, hold F2\n"
    ),
    "a layer for the next key": (
        "layer base\n  A = once layer two  B = Shift  C = F1  D = F1\nlayer two\n  C = 1\n"
    ),
    "another base": (
        "layer base\n  A = change base to two  B = Shift  C = F1  D = F1\nlayer two\n  C = 1\n"
    ),
    "a layer that needs two": (
        "layer base\n  A = hold layer two  B = hold layer three  C = Shift  D = F1\n"
        "layer two\n  D = F2\nlayer three\n  D = F3\n"
        "layer four while two and three are on\n  D = 1\n"
    ),
}


@pytest.mark.parametrize("layers", MORE.values(), ids=MORE)
def test_keys_that_wait_have_two_meanings_or_lie_on_other_layers_count(layers):
    assert signs_typed(layers) == "!1"


def test_a_layer_out_of_reach_does_not_count():
    assert "1" in lacking("layer base\n  A = F1\nlayer two\n  A = 1\n", "signs")


def test_a_cell_that_another_layer_always_covers_does_not_count():
    text = BASE.format("F1", "F2", "F3", "F4") + "layer two\n  A = F5\n"
    assert lacking(text, "function keys") == tuple(f"F{n}" for n in range(5, 13))


def test_the_lists_of_editing_moving_and_media():
    text = BASE.format("KeypadEnter", "Up", "Esc", "PgDn")
    assert lacking(text, "editing") == ("Tab", "Backspace", "Delete", "Insert")
    assert lacking(text, "moving") == ("Left", "Right", "Down", "Home", "End", "PageUp")
    assert len(lacking(text, "media")) == 6


def test_it_is_told_as_a_list_and_changes_no_status(program):
    name = program.write("pad.keys", GOOD)
    plain, ran = program("check", name), program("check", "--coverage", name)
    assert ran.status == plain.status == 0
    new = [line for line in ran.out.splitlines() if line not in plain.out.splitlines()]
    assert new[0] == f"{name}: no layer has a key for"
    assert all(len(line) <= 80 for line in new)
    assert "F1 F2" in ran.out and "a to z" not in plain.out


def test_as_json_it_is_a_field_with_every_sign(program):
    name = program.write("pad.keys", GOOD)
    report = json.loads(program("check", "--coverage", "--json", name).out)
    (groups,) = report["unreached"].values()
    assert list(groups) == ["signs", "editing", "moving", "function keys", "media"]
    assert all(len(sign) == 1 for sign in groups["signs"])
    assert "unreached" not in json.loads(program("check", "--json", name).out)


def test_of_a_file_with_errors_nothing_is_said(program):
    name = program.write("pad.keys", GOOD.replace("plate\n", "plat\n"))
    ran = program("check", "--coverage", name)
    assert ran.status == 1 and "no layer has a key for" not in ran.out
