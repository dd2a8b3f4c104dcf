"""What a board answers for itself: in three lines, as warnings, as JSON and as a report."""

import pytest

from matrixgen.bench.faults.netlist import Netlist
from matrixgen.bench.serial.self_report import Answers, answer_lines, answer_warnings
from matrixgen.boards import builtin_profile
from tests.bench_port.person import at_the_bench
from tests.bench_port.stand_in import StandIn
from tests.documents import report_of
from tests.examples.shipped import FOLDER
from tests.probe.boards import suspects_of

HERON = FOLDER / "heron-12" / "heron-12.keys"
STICK, BARE, PICO = "stick-32u4", "atmega32u4", "rp2040"
FACTORY = {"signature": "1E9587", "fuses": "5E99F3", "lock": "EC", "reset": "02"}
"""Fuses of an ATmega32U4 from the factory: 7766, tables 28-3 to 28-5, BOOTSZ 00 (from memory)."""


def answers(rises=None, name="ATmega32U4", /, **facts: str) -> Answers:
    said = {name: tuple(words.split()) for name, words in facts.items()}
    return Answers(chip=name, facts=said, rises=rises or {})


def warned(name: str, **facts: str) -> list[str]:
    return list(answer_warnings(answers(**facts), builtin_profile(name)))


def test_an_avr_answers_in_three_lines():
    pins = {"PD0": 1, "PD1": 2, "PB0": 40, "PB5": None, "PB6": None}
    said = answers(pins, **FACTORY, endpoints="0F", turn="364", clock="1024036 1024")
    assert list(answer_lines(said)) == [
        "chip: ATmega32U4; signature 1E9587; fuses low 5E, high 99, extended F3; lock EC; last "
        "reset by reset pin",
        "runs: clock within 300 ppm of the computer's; longest turn 364 µs; endpoints with memory: "
        "0 1 2 3",
        "pins: 2 pins rise in 1 to 2 µs; `PB0` takes 40 µs: something hangs on it, or a long wire; "
        "`PB5` and `PB6` never: an LED, a resistor, ground or a closed key is on it",
    ]


def test_an_rp2040_answers_in_three_lines():
    facts = {"chip": "20002927", "reset": "00010000", "watchdog": "00000000", "turn": "96"}
    said = answers({"GPIO0": 3}, "RP2040", **facts, clock="1027072 1024")
    assert list(answer_lines(said)) == [
        "chip: RP2040; revision B2 (CHIP_ID 20002927); last reset by reset pin",
        "runs: clock +3000 ppm against the computer's; longest turn 96 µs",
        "pins: 1 pin rises in 3 µs",
    ]


def test_a_board_in_order_is_not_warned_of():
    assert warned(BARE, **FACTORY, endpoints="0F", turn="364", clock="1024036 1024") == []


@pytest.mark.parametrize(
    ("name", "facts", "words"),
    [
        (BARE, {"fuses": "5E89F3"}, ["WDTON"]),
        (BARE, {"fuses": "5E98F3"}, ["BOOTRST"]),
        (STICK, {"fuses": "FFD8CB"}, []),  # its loader waits for a mark, wherever it starts
        (BARE, {"fuses": "5E9BF3"}, ["BOOTSZ put the boot loader at 30720, but the profile"]),
        (BARE, {"fuses": "5299F3"}, ["internal RC oscillator"]),
        (BARE, {"fuses": "528CF3"}, ["WDTON", "BOOTRST", "BOOTSZ", "RC oscillator"]),
        (BARE, {"signature": "1E9488"}, ["the signature of an ATmega32U4 is 1E9587"]),
        (BARE, {"endpoints": "0B"}, ["no memory"]),
        (BARE, {"turn": "2001"}, ["2001 µs"]),
        (BARE, {"clock": "1027000 1024"}, ["0.29 % off"]),
        (BARE, {"clock": "1026000 1024"}, []),
    ],
)
def test_what_will_do_harm_is_warned_of(name, facts, words):
    found = warned(name, **facts)
    assert len(found) == len(words), found
    assert all(word in warning for word, warning in zip(words, found, strict=True)), found


def test_an_old_revision_of_the_rp2040_is_warned_of():
    profile = builtin_profile(PICO)
    said = Answers(chip="RP2040", facts={"chip": ("10002927",)}, rises={})
    assert "erratum E5" in next(answer_warnings(said, profile))


@pytest.mark.parametrize("words", ["", "G", "123", "0", "1 2 3", "FFFF", "FF FF"])
@pytest.mark.parametrize(
    "name", ["signature", "chip", "fuses", "lock", "reset", "endpoints", "turn", "clock"]
)
def test_nonsense_is_passed_over(name, words):
    said = Answers(chip="ATmega32U4", facts={name: tuple(words.split())}, rises={})
    assert list(answer_lines(said))
    list(answer_warnings(said, builtin_profile(BARE)))


@pytest.fixture
def bench():
    with StandIn(Netlist(suspects_of("heron-12").board), "AT90USB162") as made:
        made.answers = ["fact signature 1E9482", "fact fuses 5E89F4", "rises PD0 1"]
        yield made


def reported(bench, report):
    words = ["probe", str(HERON), "--report", str(report)]
    return at_the_bench(bench, words, suspects_of("heron-12").board.keys)


def test_probe_shows_them_after_the_verdict_and_writes_a_report(bench, tmp_path):
    report = tmp_path / "board.txt"
    status, output, _ = reported(bench, report)
    assert status == 0
    lines = output.splitlines()
    assert lines[1] == "what the board answers for itself:"
    assert lines[2].startswith("  chip: AT90USB162; signature 1E9482; fuses low 5E, high 89")
    assert "WDTON is programmed" in output
    text = report.read_text("utf-8")
    assert "\nfact fuses 5E89F4\n" in text and "\nrises PD0 1\n" in text
    assert "warning: the fuse WDTON" in text
    assert str(tmp_path) not in text and "heron" not in text


def test_json_has_them_too(bench):
    _, output, _ = at_the_bench(bench, ["probe", "--json", str(HERON)], ["\nstop"])
    report = report_of(output, "probe")
    assert report["board"]["facts"]["fuses"] == "5E89F4"
    assert report["board"]["rises_us"] == {"PD0": 1}
    assert "WDTON" in report["board"]["warnings"][0]


def test_a_report_of_old_firmware_is_not_written(bench, tmp_path):
    bench.answers = []
    report = tmp_path / "board.txt"
    status, output, said = reported(bench, report)
    assert status == 2
    assert "answers nothing for itself" in said and "board answers" not in output
    assert not report.exists()


def test_a_report_that_cannot_be_written_is_said(bench, tmp_path):
    status, _, said = reported(bench, tmp_path / "no" / "board.txt")
    assert status == 2
    assert "cannot be written" in said
