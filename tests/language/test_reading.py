"""From a file's bytes to the model."""

import hashlib

import pytest

from matrixgen.model import (
    BootLoader,
    HoldLayer,
    LatchLayer,
    Media,
    Nothing,
    Press,
    Span,
    StartBootLoader,
)
from matrixgen.model.geometry import corners_of
from matrixgen.source import Limits, read_design
from tests.language.whole import WHOLE, completed
from tests.texts import design_in, edited, keyboard_in


def slugs_of(text):
    return [found.slug for found in read_design("heron.keys", text)[1]]


def written(folder, data):
    path = folder / "heron.keys"
    path.write_bytes(data)
    return path


def test_the_smallest_file_gives_each_key_what_its_name_says():
    base = keyboard_in(WHOLE).layers[0]
    assert [(cell.key.text, cell.action) for cell in base.cells] == [
        ("A", Press(0x04)),
        ("B", Press(0x05)),
        ("C", Press(0x06)),
        ("D", Press(0x07)),
    ]
    assert all(cell.written == cell.key and not cell.given for cell in base.cells)


def test_a_file_and_the_same_text_read_alike(tmp_path):
    path = written(tmp_path, WHOLE.encode())
    assert read_design(path)[0] == read_design(path, WHOLE)[0]


def test_the_hash_is_of_the_bytes_of_the_file(tmp_path):
    data = b"\xef\xbb\xbf" + WHOLE.replace("\n", "\r\n").encode()
    design, _ = read_design(written(tmp_path, data))
    assert design.source.sha256 == hashlib.sha256(data).hexdigest()


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
    design, found = read_design(written(tmp_path, change(WHOLE).encode()))
    assert found == []
    keyboard = design.keyboard
    assert [key.name.text for key in keyboard.keys] == ["A", "B", "C", "D"]
    assert [line.name.text for line in keyboard.wiring.lines] == ["r0", "r1", "c0", "c1"]


def test_a_column_counts_letters_not_bytes():
    text = completed('keyboard "Hérön №4 🂡" 12\n  controller x\n')
    (found,) = read_design("heron.keys", text)[1]
    line = text.split("\n")[found.span.line - 1]
    assert line[found.span.column - 1 : found.span.end_column - 1] == "12"


def test_a_missing_file_is_one_finding(tmp_path):
    (found,) = read_design(tmp_path / "none.keys")[1]
    assert found.slug == "unreadable-file" and "no such file" in found.message


def test_a_folder_is_one_finding(tmp_path):
    (found,) = read_design(tmp_path)[1]
    assert found.slug == "unreadable-file" and "folder" in found.message


def test_a_path_that_no_file_can_have_is_one_finding():
    assert [found.slug for found in read_design("a\0b")[1]] == ["unreadable-file"]


def test_bytes_that_are_no_text_are_found_at_their_place(tmp_path):
    (found,) = read_design(written(tmp_path, b"# caf\xc3\xa9\r\n# caf\xe9\n"))[1]
    assert (found.slug, found.span.line, found.span.column) == ("not-utf8", 2, 6)


@pytest.mark.parametrize("odd", ["\udce9", "\ud800"])
def test_a_text_that_was_no_utf8_is_found_at_its_place(odd):
    (found,) = read_design("-", WHOLE + f"# {odd}\n")[1]
    assert (found.slug, found.span.column) == ("not-utf8", 3)


def test_a_file_beyond_the_limit_is_not_read(tmp_path):
    path = written(tmp_path, WHOLE.encode())
    (found,) = read_design(path, limits=Limits(file_bytes=100))[1]
    assert found.slug == "over-the-limit"


def test_the_limit_on_keys_can_be_lifted():
    text = completed("plate\n  line A B C D " + " ".join(f"F.{n}" for n in range(1100)))
    assert "over-the-limit" in slugs_of(text)
    assert slugs_of(text.replace("F.", "F1.")) == ["over-the-limit"]
    assert read_design("x", text, Limits(keys=2000))[1] == []


def test_an_empty_file_is_one_finding_that_asks_for_a_plate():
    (found,) = read_design("heron.keys", "# nothing yet\n")[1]
    assert found.slug == "missing-block" and "`plate`" in found.message


def test_a_plate_alone_is_a_design():
    design = design_in("plate\n  line A B\n")
    assert [key.name.text for key in design.keyboard.keys] == ["A", "B"]
    assert design.keyboard.identity.name is None
    assert (design.controllers, design.pins, design.keyboard.wiring.lines) == ((), {}, ())
    assert not design.keyboard.wiring.is_given


def test_keys_have_their_places_on_the_plate():
    plate = (
        "plate\n  line in 0.25 A ~0.5 B:1.5x2\n  line down 0.5 C\n"
        "  cluster thumb at 3, -4.5 turned -15\n    line D\n    line E:2\n"
    )
    keys = keyboard_in(completed(plate)).keys
    assert [(k.x, k.y, k.width, k.height, k.plate_line) for k in keys] == [
        (0.25, 0, 1, 1, 0),
        (1.75, 0, 1.5, 2, 0),
        (0, 1.5, 1, 1, 1),
        (3, -4.5, 1, 1, 2),
        (3, -3.5, 2, 1, 3),
    ]
    assert [(k.turned, k.pivot_x, k.pivot_y) for k in keys[2:4]] == [(0, 0, 0), (-15, 3, -4.5)]


def test_a_tag_after_a_dot_tells_keys_apart_and_changes_nothing_else():
    keys = keyboard_in(completed("plate\n  line A B C D A.2 -.left")).keys
    assert [key.own_action for key in keys[4:]] == [Press(0x04), Press(0x2D)]


def test_a_modifier_is_a_bit_and_no_usage():
    text = completed("actions\n  all = Ctrl+Shift+Alt+GUI+AltGr\n  copy = Ctrl+C\n")
    assert [one.action for one in keyboard_in(text).actions] == [Press(0, 0x4F), Press(6, 1)]


def test_a_media_key_is_a_word_as_any_other_in_cells_and_on_the_plate():
    text = completed(
        "plate\n  line A B C D Mute VolumeUp.2\n\n"
        "actions\n  next = nexttrack\n\n"
        "layer base\n  A = PLAYPAUSE  B = next\n\n"
        "layer two\n  Sleep Wake Power Copy KeyboardMute ~\n"
    )
    keyboard = keyboard_in(text)
    base, two = ([cell.action for cell in layer.cells] for layer in keyboard.layers)
    assert [base[0], base[1], *base[4:]] == [
        *(Media(0x0C, 0xCD), Media(0x0C, 0xB5), Media(0x0C, 0xE2), Media(0x0C, 0xE9)),
    ]
    assert two == [
        *(Media(0x01, 0x82), Media(0x01, 0x83), Media(0x01, 0x81)),
        *(Press(0x7C), Press(0x7F)),
    ]
    assert [action.phrase for action in base[4:]] == ["Mute", "VolumeUp"]


def test_an_action_of_a_media_key_s_name_comes_first_unless_it_is_spelt_just_so():
    text = completed("actions\n  mute = Ctrl+M\n\nlayer base\n  A = mute  B = Mute\n")
    (base,) = keyboard_in(text).layers
    assert [cell.action for cell in base.cells[:2]] == [Press(0x10, 1), Media(0x0C, 0xE2)]
    assert slugs_of(completed("actions\n  Mute = Ctrl+M\n")) == ["action-named-as-usage"]


def test_layers_stack_in_file_order_above_the_base_layer():
    text = completed("layer two\n  A = 1\n\nlayer base\n  B = 2\n\nlayer one\n  ~ 3\n  ~ ~\n")
    base, two, one = keyboard_in(text).layers
    assert [base.name.text, two.name.text, one.name.text] == ["base", "two", "one"]
    assert [cell.action for cell in base.cells] == [Press(4), Press(0x1F), Press(6), Press(7)]
    assert [(cell.key.text, cell.action) for cell in one.cells] == [("B", Press(0x20))]
    assert one.is_picture and not two.is_picture


def test_actions_are_phrases():
    text = completed(
        "actions\n  up = hold layer two\n  stay = latch layer two\n  off = nothing\n\nlayer two\n"
    )
    actions = [one.action for one in keyboard_in(text).actions]
    assert actions == [HoldLayer("two"), LatchLayer("two"), Nothing()]


def test_settings_have_the_defaults_that_the_reference_names():
    design = design_in(WHOLE)
    assert design.keyboard.debounce_ms.value == 5
    assert design.keyboard.identity.maker is None
    assert design.keyboard.identity.vendor_id is None
    assert design.allowances == ()


def test_without_a_drive_statement_the_lines_at_the_bands_are_driven():
    wiring = "wiring\n  diodes 1N4148, band toward rows\n  row r A B C D\n  column c A\n"
    assert keyboard_in(completed(wiring)).wiring.drive == "row"
    assert keyboard_in(completed("wiring\n  row r A B C D\n")).wiring.drive == "column"


def test_wiring_keeps_pins_colours_and_the_order_of_soldering():
    row = "wiring\n  row r on PD0 wire yellow C A B D\n  without diode A\n  reversed B C\n"
    design = design_in(completed(row + "  settle 2.5 us\n"))
    wiring = design.keyboard.wiring
    (line,) = wiring.lines
    assert [pin.text for pin in design.pins["r"]] == ["PD0"]
    assert line.colour.text == "yellow"
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
    design, found = read_design("boot.keys", text)
    assert found == []
    asked = design.keyboard.boot_loader
    assert [word.text for word in asked.hold] == ["B", "A"]
    line = text.splitlines().index("  boot-loader hold B A") + 1
    assert asked.hold_span == Span.in_line("boot.keys", line, 3, 20)
    assert asked.double_reset == Span.in_line("boot.keys", line - 1, 3, 24)


def test_the_boot_loader_is_not_entered_where_the_file_does_not_ask():
    assert keyboard_in(completed("")).boot_loader == BootLoader()


def test_an_action_starts_the_boot_loader():
    text = completed("actions\n  update = start boot loader\n\nlayer base\n  A = update\n")
    keyboard = keyboard_in(text)
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
    text = edited(WHOLE + "\nlayer base\n  C = B\n", [(there, instead)])
    (found,) = read_design("heron.keys", text)[1]
    assert found.helps == (help,)


def test_a_key_or_a_wire_may_be_called_on():
    text = WHOLE.replace("line A B", "line A.on B").replace("r0 on PD0  A B", "on on PD0  A.on B")
    text = text.replace("c0 on PB0  A", "c0 on PB0  A.on")
    assert read_design("heron.keys", text)[1] == []
    text = text.replace("A.on", "on") + "\nlayer base\n  on = A\n"
    assert read_design("heron.keys", text)[1] == []


def visits_of(keys):
    text = completed(f"wiring\n  row r {keys}\n").replace("line C D", "line C D E")
    return [word.text for word in keyboard_in(text).wiring.lines[0].visits]


@pytest.mark.parametrize(
    ("keys", "visited"),
    [
        ("A to D", "ABCD"),
        ("D to A", "DCBA"),
        ("A to A", "A"),
        ("A B to D E", "ABCDE"),
        ("E C to A", "ECBA"),
        ("A to B E to D", "ABED"),
    ],
)
def test_a_run_visits_every_key_from_one_to_the_other_in_plate_order(keys, visited):
    assert "".join(visits_of(keys)) == visited


def test_the_keys_within_a_run_stand_where_the_run_does_and_its_ends_where_they_are_named():
    text = "plate\n  line A B C\n\nwiring\n  row r  A to C\n"
    spans = [word.span for word in keyboard_in(text).wiring.lines[0].visits]
    assert spans == [Span.in_line("pad.keys", 5, *place) for place in ((10, 1), (10, 6), (15, 1))]


def test_a_mirrored_cluster_lies_where_a_mirror_would_show_it():
    plate = (
        "plate\n  cluster left at 1, 2 turned 20\n    line A:1.5 ~0.5 B\n    line in 0.25 C:1x2\n"
        "  cluster right mirrors left about 6.5\n    line D E\n    line F\n"
    )
    keys = {key.name.text: key for key in keyboard_in(plate).keys}
    for one, image in (("A", "E"), ("B", "D"), ("C", "F")):
        corners = {(round(x, 9), round(y, 9)) for x, y in corners_of(keys[one])}
        mirrored = {(round(13 - x, 9), round(y, 9)) for x, y in corners_of(keys[image])}
        assert corners == mirrored
        assert keys[image].turned == -keys[one].turned
        assert (keys[image].width, keys[image].height) == (keys[one].width, keys[one].height)


def test_lines_of_a_mirrored_cluster_are_lines_of_the_plate_and_know_their_cluster():
    plate = "plate\n  line A\n  cluster l at 2, 0\n  line B\n"
    plate += "  cluster r mirrors l about 4\n  line C\n"
    found = keyboard_in(plate).plate
    assert [line.cluster for line in found.lines] == [None, "l", "r"]
    assert [(one.name.text, one.x, one.turned) for one in found.clusters] == [
        ("l", 2, 0),
        ("r", 6, 0),
    ]


@pytest.mark.parametrize(
    ("quoted", "said"),
    [
        (r'"The \"Heron\""', 'The "Heron"'),
        (r'"A\\"', "A\\"),
        (r'"C:\boards\new"', r"C:\boards\new"),
        ('"\\\\\\""', '\\"'),
    ],
)
def test_a_quote_or_a_backslash_in_quotes_has_a_backslash_before_it(quoted, said):
    assert keyboard_in(completed(f"keyboard {quoted}\n")).identity.name.text == said


def test_a_list_s_cell_may_be_a_phrase_and_is_written_as_it_was():
    text = completed(
        "layer base\n  A = hold   layer\n    and two  B = nothing  C = start boot loader  D = 1\n\n"
        "layer two\n  A = latch layer two\n"
    )
    base, two = keyboard_in(text).layers
    assert [(cell.written.text, cell.action) for cell in base.cells] == [
        ("hold layer two", HoldLayer("two")),
        ("nothing", Nothing()),
        ("start boot loader", StartBootLoader()),
        ("1", Press(0x1E)),
    ]
    assert [cell.action for cell in two.cells] == [LatchLayer("two")]
    line = text.split("\n").index("  A = hold   layer") + 1
    span = base.cells[0].written.span
    assert (span.start, span.end) == ((line, 7), (line + 1, 12))


def test_blocks_and_statements_have_their_true_spans():
    text = completed("layer two\n  A = 1\n\n  B = 2  # the last\n\n# after\n")
    keyboard = keyboard_in(text)
    lines = text.split("\n")
    wiring = keyboard.wiring
    assert lines[wiring.span.line - 1] == "wiring"
    assert lines[wiring.span.end_line - 1] == "  column c1 on PB1  B D"
    assert (wiring.keyword.line, wiring.keyword.end_column) == (wiring.span.line, 7)
    layer = keyboard.layers[1].span
    assert lines[layer.line - 1 : layer.end_line][-1] == "  B = 2  # the last"
    assert layer.end_column == 8


def test_places_of_an_allowance_are_words_and_runs():
    design = design_in(completed('keyboard "A"\n  allow some-check PF4 A to C\n  allow other\n'))
    some, other = design.allowances
    assert [place.text for place in some.places] == ["PF4", "A", "B", "C"]
    assert len({place.span for place in some.places[1:]}) == 1
    assert (other.slug.text, other.places) == ("other", ())


def texts(*lengths: int) -> str:
    """A file whose keys type so many letters each."""
    keys = [f"K{number}" for number in range(len(lengths))]
    cells = [
        f'  {key} = type "{(key + "x" * length)[:length]}"'
        for key, length in zip(keys, lengths, strict=True)
    ]
    head = 'keyboard "Pad"\n  controller atmega32u4\n  computer us\n\nplate\n'
    return f"{head}  line {' '.join(keys)}\n\nlayer base\n" + "\n".join(cells) + "\n"


def test_all_that_is_typed_in_turn_is_at_most_16_000_strokes():
    """Two bytes each, in an array that an AVR's compiler takes; two of each text's are its own."""
    many = [1000] * 15
    assert slugs_of(texts(*many, 968)).count("over-the-limit") == 0
    assert slugs_of(texts(*many, 969, 100)).count("over-the-limit") == 1


def test_a_text_that_several_keys_type_counts_once():
    text = texts(*[1000] * 15).replace("  line K0", "  line K K0")
    again = f'  K = type "K0{"x" * 998}"\n'
    assert "over-the-limit" not in slugs_of(text + again)
    assert "over-the-limit" in slugs_of(text + again.replace("K0x", "more"))
