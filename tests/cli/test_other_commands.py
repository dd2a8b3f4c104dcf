"""`explain`, `boards`, `new`, and the program around them."""

import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

import matrixgen
from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.cli.commands import COMMANDS
from matrixgen.jobs.catalogue import catalogue
from tests.patience import HANGS_S
from tests.texts import GOOD

CHECKOUT = Path(matrixgen.__file__).parents[1]


def test_the_version_is_printed(program):
    assert program("--version").out == f"matrixgen {matrixgen.__version__}\n"


def test_help_lists_every_command(program):
    ran = program("--help")
    assert ran.status == 0
    assert all(f"  {name} " in ran.out for name in COMMANDS)


def test_no_command_prints_the_help_and_is_bad_use(program):
    ran = program()
    assert ran.status == 2
    assert "usage: matrixgen COMMAND" in ran.out


def test_a_wrong_command_gets_a_similar_one(program):
    ran = program("chekc")
    assert (ran.status, ran.out) == (2, "")
    assert "`check` has a similar name" in ran.err


@pytest.mark.parametrize("name", COMMANDS)
def test_every_command_has_a_help_of_its_own(program, name):
    ran = program(name, "--help")
    assert ran.status == 0
    assert f"usage: matrixgen {name}" in ran.out


def test_explain_prints_the_page_of_a_slug(program):
    ran = program("explain", "two-keys-at-one-crossing")
    assert ran.status == 0
    assert ran.out.startswith("# error[two-keys-at-one-crossing]: two keys at one crossing\n\n##")
    assert "## Do instead" in ran.out


def test_explain_of_a_wrong_slug_offers_a_similar_one(program):
    ran = program("explain", "two-keys-at-a-crossing")
    assert (ran.status, ran.out) == (2, "")
    assert "`two-keys-at-one-crossing` has a similar name" in ran.err


def test_explain_alone_lists_every_slug_on_one_line(program):
    lines = program("explain").out.splitlines()
    assert [line.split()[0] for line in lines] == sorted(catalogue())
    assert all(line.split()[1] in ("error", "warning") for line in lines)


def test_boards_lists_every_controller_on_one_line(program):
    ran = program("boards")
    listed = [line.split()[0] for line in ran.out.split("\n\n")[0].splitlines()[1:]]
    assert (ran.status, listed) == (0, list(builtin_names()))
    rows = {row["name"]: row for row in json.loads(program("boards", "--json").out)["controllers"]}
    assert rows["stick-32u4"]["usable_pins"] == 18
    assert rows["stick-32u4"]["room_bytes"] == 28672


def test_boards_tells_on_80_columns_what_has_firmware_and_what_counts_pins_only(program):
    lines = program("boards").out.splitlines()
    assert max(map(len, lines)) <= 80
    firmware = {line[:14].strip(): line for line in lines}
    assert "  emulated   stick with 18 pins, 5 V and 16 MHz" in firmware["stick-32u4"]
    assert "  pins only  the bare chip, 3.3 V" in firmware["nrf52840"]
    assert any(line.startswith("pins only: ") for line in lines)
    rows = {row["name"]: row for row in json.loads(program("boards", "--json").out)["controllers"]}
    assert (rows["stick-32u4"]["port"], rows["nrf52840"]["port"]) == ("avr", None)


def test_boards_tells_what_shared_pins_ask_for_the_least_first(program):
    _, asked = program("boards", "atmega32u4").out.split("What shared pins need")
    lines = asked.splitlines()[2:]
    assert lines[0].startswith("PF4, PF5, PF6, PF7  nothing to do: ")
    assert lines[1].startswith("PE2 ") and "fit 10 kohm" in lines[1]
    assert "shared pins" not in program("boards", "rp2040").out


def test_boards_lists_the_pins_of_one_controller(program):
    ran = program("boards", "stick-32u4")
    assert ran.status == 0
    assert "PD0    3      free" in ran.out
    assert "datasheet" in ran.out
    shown = json.loads(program("boards", "stick-32u4", "--json").out)["controller"]
    assert {"name": "PD0", "label": "3"}.items() <= shown["pins"][10].items()
    assert shown["edges"][0]["names"][:3] == ["PD3", "PD2", "GND"]


@pytest.mark.parametrize(
    ("controller", "firmware", "low"),
    [
        ("stick-32u4", "emulated", "through 70 Ω, at most 40 mA per pin and 200 mA in all"),
        ("ch552t", "none yet: pins are counted", "through 33.3 Ω, at most 12 mA per pin"),
    ],
)
def test_boards_tells_of_firmware_and_of_low_pins(program, controller, firmware, low):
    lines = program("boards", controller).out.splitlines()
    told = dict(line.split(maxsplit=1) for line in lines if line.startswith("firmware"))
    assert told["firmware"].startswith(firmware)
    assert next(line for line in lines if line.startswith("pulls low")).endswith(f"  {low}")


def test_boards_tells_how_a_boot_loader_starts_and_what_a_bare_chip_needs(program):
    bare = program("boards", "at90usb1286").out
    assert "boot loader starts     by a jump to 0x1E000" in bare
    assert "The chip needs around it:" in bare
    assert "from UCAP to ground" in bare
    stick = program("boards", "stick-32u4").out
    assert "boot loader starts     by a reset with 0x7777 at 0x0800" in stick
    assert "boot loader takes      an image by AVR109" in stick
    assert "around it" not in stick
    assert (
        "also drives the light on the board (light to ground)"
        in program("boards", "board-32u4-25").out
    )


def test_boards_of_an_own_profile_that_says_little_claims_little(program):
    profile = json.loads((CHECKOUT / "boards" / "stick-32u4.json").read_text(encoding="utf-8"))
    profile["without"].append("output_low")
    ran = program("boards", program.write("mine.json", json.dumps(profile)))
    assert re.search(r"^firmware +not proven$", ran.out, re.M)
    assert re.search(r"^pulls low +through 100 Ω$", ran.out, re.M)


def test_boards_takes_a_profile_by_path_and_tells_its_mistakes(program):
    good = (CHECKOUT / "boards" / "stick-32u4.json").read_text(encoding="utf-8")
    assert program("boards", program.write("mine.json", good)).status == 0
    ran = program("boards", program.write("mine.json", good.replace('"reserved"', '"spare"', 1)))
    assert ran.status == 1
    assert "error[bad-profile]: `use` is not one of" in ran.err
    assert program("boards", program.write("mine.json", "{")).status == 2
    assert program("boards", "missing.json").status == 2


def test_boards_of_a_wrong_name_offers_a_similar_one(program):
    ran = program("boards", "stick-32u5")
    assert (ran.status, ran.out) == (2, "")
    assert "`stick-32u4` has a similar name" in ran.err


@pytest.mark.parametrize("controller", builtin_names())
def test_a_new_file_checks_clean_on_every_controller(program, controller):
    assert program("new", "pad", "--controller", controller).out == "wrote pad.keys\n"
    ran = program("check", "pad.keys")
    assert ran.status == 0
    assert ran.out.startswith("pad.keys: ")
    planned = f"can be planned, not built: no firmware for {controller} yet"
    last = "ready to build: no findings" if builtin_profile(controller).port else planned
    assert ran.out.endswith(f"\n{last}\n")


def test_a_new_file_takes_the_stick_if_no_controller_is_named(program):
    assert program("new", "pad.keys").status == 0
    text = (program.folder / "pad.keys").read_text(encoding="utf-8")
    assert 'keyboard "pad"' in text
    assert "controller stick-32u4" in text
    assert all(len(line) <= 100 and line == line.rstrip() for line in text.splitlines())


def test_a_new_file_may_use_a_profile_of_ones_own(program):
    good = (CHECKOUT / "boards" / "at90usb162.json").read_text(encoding="utf-8")
    (program.folder / "sub").mkdir()
    program.write("mine.json", good)
    ran = program("new", "sub/pad", "--controller", "mine.json")
    assert ran.status == 2
    assert "`sub/pad.keys` cannot name `mine.json`: it is outside the folder" in ran.err
    assert not (program.folder / "sub" / "pad.keys").exists()
    (program.folder / ".git").mkdir()  # as in a repository, of which both are a part
    assert program("new", "sub/pad", "--controller", "mine.json").status == 0
    assert program("check", "sub/pad.keys").status == 0


def test_a_new_file_never_takes_the_place_of_another(program):
    program.write("pad.keys", "mine")
    ran = program("new", "pad")
    assert ran.status == 2
    assert "is there already" in ran.err
    assert (program.folder / "pad.keys").read_text() == "mine"


@pytest.mark.parametrize("name", ["", "-", "a\nb", 'a"b', "no/such/folder/pad", "x" * 60, ".keys"])
def test_a_name_that_cannot_be_is_bad_use(program, name):
    ran = program("new", "--", name)
    assert ran.status == 2
    assert list(program.folder.iterdir()) == []


def test_a_new_file_for_an_unknown_controller_is_not_written(program):
    ran = program("new", "pad", "--controller", "stick-32u5")
    assert ran.status == 2
    assert "`stick-32u4`" in ran.err
    assert program("new", "pad", "--controller", "missing.json").status == 2
    assert list(program.folder.iterdir()) == []


def started(*words: str, **more) -> subprocess.CompletedProcess:
    environment = {**os.environ, "PYTHONPATH": str(CHECKOUT), "PYTHONIOENCODING": "ascii"}
    command = [sys.executable, "-m", "matrixgen", *words]
    return subprocess.run(command, env=environment, capture_output=True, timeout=HANGS_S, **more)


def test_the_program_runs_as_a_module_and_leaves_with_its_status(tmp_path):
    ran = started("check", str(tmp_path / "missing.keys"))
    assert ran.returncode == 2
    assert b"Traceback" not in ran.stderr


def test_a_reader_that_goes_away_is_no_failure():
    ran = subprocess.run(
        f"{sys.executable} -m matrixgen explain | head -n 1",
        shell=True,
        env={**os.environ, "PYTHONPATH": str(CHECKOUT)},
        capture_output=True,
        timeout=HANGS_S,
    )
    assert ran.stderr == b""
    assert ran.stdout.count(b"\n") == 1


def test_output_that_cannot_be_written_is_told_without_a_traceback():
    with Path("/dev/full").open("wb") if Path("/dev/full").exists() else _closed() as full:
        environment = {**os.environ, "PYTHONPATH": str(CHECKOUT)}
        command = [sys.executable, "-m", "matrixgen", "boards"]
        ran = subprocess.run(
            command, env=environment, stdout=full, stderr=subprocess.PIPE, timeout=HANGS_S
        )
    assert ran.returncode == 2
    assert b"matrixgen: the output cannot be written: " in ran.stderr
    assert b"Traceback" not in ran.stderr


def _closed():
    """Return a file that nothing can be written to, where there is no device that is full."""
    return Path(os.devnull).open("rb")


@pytest.mark.parametrize("slug", ["syntax", "[syntax]", "error[syntax]"])
def test_a_page_is_found_by_its_name_as_a_finding_prints_it(program, slug):
    assert program("explain", slug).out.startswith("# error[syntax]: ")


def test_names_that_the_terminal_cannot_show_are_escaped(tmp_path):
    path = tmp_path / "日.keys"
    path.write_text("nonsense\n", encoding="utf-8")
    ran = started("check", str(path))
    assert ran.returncode == 1
    assert b"\\u65e5.keys:1:" in ran.stdout


@pytest.mark.parametrize(("no_colour", "has_colour"), [("", True), ("1", False)])
def test_colour_is_for_terminals_and_yields_to_no_color(monkeypatch, no_colour, has_colour):
    from matrixgen.cli.printer import wants_colour

    class Terminal:
        def isatty(self) -> bool:
            return True

    monkeypatch.setenv("NO_COLOR", no_colour)
    monkeypatch.setenv("TERM", "xterm")
    assert wants_colour(Terminal()) is has_colour
    monkeypatch.setenv("TERM", "dumb")
    assert not wants_colour(Terminal())


@pytest.mark.parametrize(("no_colour", "has_colour"), [("", True), ("1", False)])
def test_force_color_paints_what_is_piped_too_unless_no_color_is_set(
    program, monkeypatch, no_colour, has_colour
):
    program.write("pad.keys", GOOD.replace("PB1", "PB0"))
    monkeypatch.setenv("FORCE_COLOR", "1")
    monkeypatch.setenv("NO_COLOR", no_colour)
    assert ("\x1b[1;31m" in program("check", "pad.keys").out) is has_colour
