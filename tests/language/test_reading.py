"""From a file's bytes to the model."""

import hashlib

import pytest

from matrixgen.model import BootLoader, HoldLayer, LatchLayer, Nothing, Press, Span, StartBootLoader
from matrixgen.source import Limits, read_keyboard
from tests.language.whole import WHOLE, completed


def keyboard_of(text):
    keyboard, found = read_keyboard("heron.keys", text)
    assert keyboard is not None, found
    return keyboard


def slugs_of(text):
    return [found.slug for found in read_keyboard("heron.keys", text)[1]]


def written(folder, data):
    path = folder / "heron.keys"
    path.write_bytes(data)
    return path


def test_the_smallest_file_gives_each_key_what_its_name_says():
    base = keyboard_of(WHOLE).layers[0]
    assert [(cell.key.text, cell.action) for cell in base.cells] == [
        ("A", Press(0x04)),
        ("B", Press(0x05)),
        ("C", Press(0x06)),
        ("D", Press(0x07)),
    ]
    assert all(cell.cell == cell.key for cell in base.cells)


def test_a_file_and_the_same_text_read_alike(tmp_path):
    path = written(tmp_path, WHOLE.encode())
    assert read_keyboard(path)[0] == read_keyboard(path, WHOLE)[0]


def test_the_hash_is_of_the_bytes_of_the_file(tmp_path):
    data = b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode()
    keyboard, _ = read_keyboard(written(tmp_path, data))
    assert keyboard.source.sha256 == hashlib.sha256(data).hexdigest()


@pytest.mark.parametrize(
    "change",
    [
        lambda text: text.replace("\n", "\r\n"),
        lambda text: text.replace("\n", "\r"),
        lambda text: "\ufeff" + text,
        lambda text: text.rstrip("\n"),
        lambda text: text + "\n\n   \n# the end",
        lambda text: text.replace("\n  ", "\n\t"),
        lambda text: text.replace("\n  ", " \t\n\t \t "),
    ],
    ids=["crlf", "cr", "mark", "no last newline", "blank end", "tabs", "tabs and blanks"],
)
def test_line_ends_marks_and_blanks_make_no_difference(change, tmp_path):
    keyboard, found = read_keyboard(written(tmp_path, change(WHOLE).encode()))
    assert found == []
    assert [key.name.text for key in keyboard.keys] == ["A", "B", "C", "D"]
    assert [line.name.text for line in keyboard.wiring.lines] == ["r0", "r1", "c0", "c1"]


def test_a_column_counts_letters_not_bytes():
    text = completed('keyboard "Hérön №4 🂡" 12\n  controller x\n')
    (found,) = read_keyboard("heron.keys", text)[1]
    line = text.split("\n")[found.span.line - 1]
    assert line[found.span.column - 1 : found.span.end_column - 1] == "12"


def test_a_missing_file_is_one_finding(tmp_path):
    (found,) = read_keyboard(tmp_path / "none.keys")[1]
    assert found.slug == "unreadable-file" and "no such file" in found.message


def test_a_folder_is_one_finding(tmp_path):
    (found,) = read_keyboard(tmp_path)[1]
    assert found.slug == "unreadable-file" and "folder" in found.message


def test_a_path_that_no_file_can_have_is_one_finding():
    assert [found.slug for found in read_keyboard("a\0b")[1]] == ["unreadable-file"]


def test_bytes_that_are_no_text_are_found_at_their_place(tmp_path):
    (found,) = read_keyboard(written(tmp_path, b"# caf\xc3\xa9\r\n# caf\xe9\n"))[1]
    assert (found.slug, found.span.line, found.span.column) == ("not-utf8", 2, 6)


@pytest.mark.parametrize("odd", ["\udce9", "\ud800"])
def test_a_text_that_was_no_utf8_is_found_at_its_place(odd):
    (found,) = read_keyboard("-", WHOLE + f"# {odd}\n")[1]
    assert (found.slug, found.span.column) == ("not-utf8", 3)


def test_a_file_beyond_the_limit_is_not_read(tmp_path):
    path = written(tmp_path, WHOLE.encode())
    (found,) = read_keyboard(path, limits=Limits(file_bytes=100))[1]
    assert found.slug == "over-the-limit"


def test_the_limit_on_keys_can_be_lifted():
    text = completed("plate\n  line A B C D " + " ".join(f"F.{n}" for n in range(1100)))
    assert "over-the-limit" in slugs_of(text)
    assert slugs_of(text.replace("F.", "F1.")) == ["over-the-limit"]
    assert read_keyboard("x", text, Limits(keys=2000))[1] == []


def test_an_empty_file_is_one_finding_that_names_every_block():
    (found,) = read_keyboard("heron.keys", "# nothing yet\n")[1]
    assert found.slug == "missing-block"
    assert all(name in found.message for name in ("keyboard", "plate", "wiring"))


def test_keys_have_their_places_on_the_plate():
    plate = (
        "plate\n  line in 0.25 A ~0.5 B:1.5x2\n  line down 0.5 C\n"
        "  cluster thumb at 3, -4.5 turned -15\n    line D\n    line E:2\n"
    )
    keys = keyboard_of(completed(plate)).keys
    assert [(k.x, k.y, k.width, k.height, k.plate_line) for k in keys] == [
        (0.25, 0, 1, 1, 0),
        (1.75, 0, 1.5, 2, 0),
        (0, 1.5, 1, 1, 1),
        (3, -4.5, 1, 1, 2),
        (3, -3.5, 2, 1, 3),
    ]
    assert [(k.turned, k.pivot_x, k.pivot_y) for k in keys[2:4]] == [(0, 0, 0), (-15, 3, -4.5)]


def test_a_tag_after_a_dot_tells_keys_apart_and_changes_nothing_else():
    keys = keyboard_of(completed("plate\n  line A B C D A.2 -.left")).keys
    assert [key.own_action for key in keys[4:]] == [Press(0x04), Press(0x2D)]


def test_a_modifier_is_a_bit_and_no_usage():
    text = completed("actions\n  all = Ctrl+Shift+Alt+GUI+AltGr\n  copy = Ctrl+C\n")
    assert [one.action for one in keyboard_of(text).actions] == [Press(0, 0x4F), Press(6, 1)]


def test_layers_stack_in_file_order_above_the_base_layer():
    text = completed("layer two\n  A = 1\n\nlayer base\n  B = 2\n\nlayer one\n  ~ 3\n  ~ ~\n")
    base, two, one = keyboard_of(text).layers
    assert [base.name.text, two.name.text, one.name.text] == ["base", "two", "one"]
    assert [cell.action for cell in base.cells] == [Press(4), Press(0x1F), Press(6), Press(7)]
    assert [(cell.key.text, cell.action) for cell in one.cells] == [("B", Press(0x20))]
    assert one.is_picture and not two.is_picture


def test_actions_are_phrases():
    text = completed(
        "actions\n  up = hold layer two\n  stay = latch layer two\n  off = nothing\n\nlayer two\n"
    )
    actions = [one.action for one in keyboard_of(text).actions]
    assert actions == [HoldLayer("two"), LatchLayer("two"), Nothing()]


def test_settings_have_the_defaults_that_the_reference_names():
    keyboard = keyboard_of(WHOLE)
    assert keyboard.debounce_ms.value == 5
    assert keyboard.identity.maker is None and keyboard.identity.vendor_id is None
    assert keyboard.allowed == ()


def test_without_a_drive_statement_the_lines_at_the_bands_are_driven():
    wiring = "wiring\n  diodes 1N4148, band toward rows\n  row r A B C D\n  column c A\n"
    assert keyboard_of(completed(wiring)).wiring.drive == "row"
    assert keyboard_of(completed("wiring\n  row r A B C D\n")).wiring.drive == "column"


def test_wiring_keeps_pins_colours_and_the_order_of_soldering():
    row = "wiring\n  row r on PD0 wire yellow C A B D\n  without diode A\n  reversed B C\n"
    wiring = keyboard_of(completed(row + "  settle 2.5 us\n")).wiring
    (line,) = wiring.lines
    assert (line.pin.text, line.colour.text) == ("PD0", "yellow")
    assert [visit.text for visit in line.visits] == ["C", "A", "B", "D"]
    assert [word.text for word in wiring.without_diode] == ["A"]
    assert [word.text for word in wiring.reversed] == ["B", "C"]
    assert wiring.settle_us.value == 2.5


def test_a_mistake_on_the_plate_is_not_repeated_for_each_use_of_the_lost_names():
    assert slugs_of(WHOLE.replace("line C D", "line C D(")) == ["syntax"]


def test_a_broken_block_takes_its_lines_along_and_says_so_once():
    assert slugs_of(WHOLE.replace("plate", "plat")) == ["unknown-block"]
    assert slugs_of(WHOLE.replace("wiring", "wiring all")) == ["syntax"]


def test_many_broken_lines_are_reported_up_to_the_limit():
    text = WHOLE + "  row\n" * 300
    assert slugs_of(text) == ["syntax"] * Limits().syntax_mistakes


def test_the_ways_into_the_boot_loader_are_in_the_model_with_their_places():
    settings = "  controller stick-32u4\n  boot-loader double reset\n  boot-loader hold B A\n"
    text = completed(f'keyboard "A"\n{settings}')
    keyboard, found = read_keyboard("boot.keys", text)
    assert found == []
    asked = keyboard.boot_loader
    assert [word.text for word in asked.hold] == ["B", "A"]
    line = text.splitlines().index("  boot-loader hold B A") + 1
    assert asked.hold_span == Span("boot.keys", line, 3, line, 23)
    assert asked.double_reset == Span("boot.keys", line - 1, 3, line - 1, 27)


def test_the_boot_loader_is_not_entered_where_the_file_does_not_ask():
    keyboard, _ = read_keyboard("boot.keys", completed(""))
    assert keyboard.boot_loader == BootLoader()
    assert keyboard.controllers == (keyboard.controller,)


def test_an_action_starts_the_boot_loader():
    text = completed("actions\n  update = start boot loader\n\nlayer base\n  A = update\n")
    keyboard = keyboard_of(text)
    assert keyboard.actions[0].action == StartBootLoader()
    assert keyboard.layers[0].cells[0].action == StartBootLoader()


@pytest.mark.parametrize(
    ("there", "instead", "help"),
    [
        ("C = B", "C = Ctrl-C", "write `Ctrl+C`"),
        ("C = B", "C = Ctrl-Shift-Tab", "write `Ctrl+Shift+Tab`"),
        ("row    r0 on PD0", "row    r0 PD0", "write `on PD0` if it is a pin"),
    ],
)
def test_a_slip_that_has_one_likely_cure_gets_it(there, instead, help):
    text = WHOLE + "\nlayer base\n  C = B\n"
    assert there in text
    (found,) = read_keyboard("heron.keys", text.replace(there, instead))[1]
    assert found.help == help


def test_a_key_or_a_wire_may_be_called_on():
    text = WHOLE.replace("line A B", "line A.on B").replace("r0 on PD0  A B", "on on PD0  A.on B")
    text = text.replace("c0 on PB0  A", "c0 on PB0  A.on")
    assert read_keyboard("heron.keys", text)[1] == []
    text = text.replace("A.on", "on") + "\nlayer base\n  on = A\n"
    assert read_keyboard("heron.keys", text)[1] == []
