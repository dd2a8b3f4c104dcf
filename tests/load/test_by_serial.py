"""`matrixgen load` for boards on a serial port, as a maker meets it."""

from __future__ import annotations

from contextlib import contextmanager
from pathlib import Path

import pytest

from matrixgen.cli.main import main
from matrixgen.load.patience import awaited
from matrixgen.ports import opening
from tests.load.drive import FolderDrive
from tests.load.loader import Chip, Mute, OnTerminal
from tests.load.stick_images import hex_of, image_of
from tests.load.table import BENCH, STICK
from tests.texts import GOOD
from tests.toolchain.hex_file import from_hex


def test_a_keyboard_is_built_and_loaded_into_the_only_board_once_it_is_agreed_to_be_one(table):
    chip = table.plugged(Chip())
    status, out, err = table.load(table.write("pad.keys", STICK))
    assert table.asked == [f"{table.ports[0].device}  Stick (1234:0005): is this the board? (y/n) "]
    assert (status, err) == (0, "")
    assert "a boot loader that calls itself `STANDIN`" in out
    assert "written, read back and correct" in out
    assert main(["build", "pad.keys"]) == 0
    built = from_hex(Path("pad/pad.hex").read_text())
    assert chip.program == built.ljust(chip.loader_start, b"\xff")
    assert chip.flash[chip.loader_start :] == chip.loader_share and chip.started


def test_an_image_knows_by_the_manifest_beside_it_what_it_is_for(table):
    main(["build", table.write("pad.keys", STICK)])
    chip = table.plugged(Chip())
    assert table.load("pad/pad.hex")[0] == 0
    assert chip.started
    Path("pad/pad.hex").write_text(hex_of(image_of(300)))  # no longer what the manifest says
    status, _, err = table.load("pad/pad.hex")
    assert (status, "--controller NAME" in err) == (2, True)


def test_of_several_boards_the_one_that_is_chosen_is_loaded(table):
    chips = [Chip(), Chip()]
    table.plug(*map(OnTerminal, chips))
    table.answers("2")
    status, out, _ = table.load_image()
    assert status == 0 and len(table.asked) == 1
    wanted = sorted(table.ports, key=lambda port: port.device)[1].device
    assert f"2  {wanted}  Stick (1234:0005)" in out
    started = [port.device for port, chip in zip(table.ports, chips, strict=True) if chip.started]
    assert started == [wanted]


@pytest.mark.parametrize("more", [(), ("--yes",)])
def test_of_several_boards_none_is_loaded_where_nobody_can_choose(table, more):
    chips = [Chip(), Chip()]
    table.plug(*map(OnTerminal, chips))
    table.nobody() if not more else table.answers("1")
    status, _, err = table.load_image(*more)
    assert (status, table.asked) == (2, [])
    assert "there are several boards" in err and "--port PORT" in err
    assert not any(chip.commands for chip in chips)


def speeds_where_comes(loader: OnTerminal, table, monkeypatch) -> list[int]:
    """Return the speeds of all ports opened: one opened at 1200 baud goes, and a loader comes."""
    opened_at: list[int] = []
    real = opening.open_once

    def opens(path, baud):
        opened_at.append(baud)
        if baud == 1200:
            table.ports[:] = [one for one in table.ports if one.device != path]
            table.later(3, lambda: table.plug(loader))
        return real(path, baud)

    monkeypatch.setattr(opening, "open_once", opens)
    return opened_at


def test_a_board_in_its_program_is_sent_to_its_loader_at_1200_baud(table, monkeypatch):
    loader = Chip()
    program, restarted = OnTerminal(Mute()), OnTerminal(loader)
    table.plug(program)
    opened_at = speeds_where_comes(restarted, table, monkeypatch)
    table.answers("y", "y")
    status, out, err = table.load_image()
    assert (status, err) == (0, "")
    assert "restarting the board into its boot loader" in out
    assert opened_at == [57600, 1200, 57600] and loader.started
    assert "restart the board into its boot loader?" in table.asked[1]


def test_a_port_that_is_no_boot_loader_is_left_alone_where_nobody_agrees(table):
    table.plug(OnTerminal(Mute()))
    table.answers("y", "n")
    status, _, err = table.load_image()
    assert status == 2
    assert "does not answer as a boot loader" in err and "reset button twice" in err


def test_a_board_that_is_plugged_in_later_is_waited_for(table):
    chip = Chip()
    table.later(50, lambda: table.plug(OnTerminal(chip)))
    status, out, _ = table.load_image()
    assert status == 0 and chip.started
    assert "waiting for the board: plug it in" in out


def test_a_factory_s_loader_is_left_to_the_program_for_it_word_for_word(table):
    chip = Chip()
    port = OnTerminal(chip)
    table.plug(port)
    status, out, _ = table.load(table.write("pad.keys", GOOD))
    assert status == 2 and not chip.commands
    lines = [line.strip() for line in out.splitlines()]
    assert "matrixgen does not load `atmega32u4` itself" in out
    build, erase, flash = lines[lines.index("matrixgen build pad.keys --controller atmega32u4") :][
        :3
    ]
    assert erase == "dfu-programmer atmega32u4 erase"
    assert flash == "dfu-programmer atmega32u4 flash pad/pad.hex"
    assert main(build.split()[1:]) == 0 and Path(flash.split()[-1]).is_file()
    assert table.load("pad.keys", "--port", port.path)[0] == 0, "another loader may be there"
    assert chip.started


def test_a_file_with_a_mistake_is_not_loaded(table):
    chip = table.plugged(Chip())
    status, _, err = table.load(table.write("pad.keys", STICK.replace("PD4", "PD0")))
    assert (status, "error[pin-used-twice]" in err, bytes(chip.commands)) == (1, True, b"")


def test_of_several_controllers_one_has_to_be_named(table):
    two = STICK.replace("stick-32u4", "stick-32u4, stick-32u4-3v3").replace("PD1", "PD1, PD1")
    two = two.replace("on PD0", "on PD0, PD0").replace("on PD4", "on PD4, PD4")
    assert "several controllers" in table.load(table.write("pad.keys", two))[2]
    assert "no controller `rp2040`" in table.load("pad.keys", "--controller", "rp2040")[2]
    table.plug(OnTerminal(Chip()))
    assert table.load("pad.keys", "--controller", "stick-32u4-3v3")[0] == 0


def test_the_keyboard_that_appears_is_named(table):
    device = table.folder / "sys" / "1-2"
    (device / "1-2:1.0").mkdir(parents=True)

    def come() -> None:
        (device / "1-2:1.0" / "bInterfaceClass").write_text("03\n")
        (device / "1-2:1.0" / "bInterfaceProtocol").write_text("01\n")
        (device / "product").write_text("Pad\n")
        (device / "idProduct").write_text("0001\n")
        (device / "idVendor").write_text("1209\n")

    table.plugged(Chip())
    table.later(5, come)
    _, out, _ = table.load_image()
    assert out.endswith("a keyboard has appeared: Pad (1209:0001)\n")


def test_the_list_shows_ports_drives_and_factory_loaders(table):
    assert table.load("--list")[1] == "no USB serial port, and no drive of a boot loader\n"
    table.plug("/dev/ttyACM0")
    table.mount(FolderDrive(table.folder / "a drive").path, table.folder)
    device = table.folder / "sys" / "3-1"
    device.mkdir(parents=True)
    for name, text in (("idVendor", "03eb"), ("idProduct", "2ff4"), ("product", "DFU")):
        (device / name).write_text(text)
    assert table.load("--list")[1].splitlines() == [
        "port   /dev/ttyACM0  Stick (1234:0005)",
        f"drive  {table.folder}/a drive  Raspberry Pi RP2 (RPI-RP2)",
        "usb    DFU (03EB:2FF4): a factory's boot loader, for `dfu-programmer`",
    ]


def test_interrupted_by_the_maker_it_says_that_nothing_is_broken(table, monkeypatch):
    @contextmanager
    def interrupted(what: str, steps: int):
        def step() -> None:
            raise KeyboardInterrupt

        yield step

    chip = table.plugged(Chip())
    table.answers("y", "y")
    with monkeypatch.context() as patched:
        patched.setattr("matrixgen.cli.load_talk.progress_bar", interrupted)
        status, _, err = table.load_image()
    assert (status, "nothing is broken" in err, chip.started) == (130, True, False)
    assert table.load_image()[0] == 0


def test_a_board_that_is_unplugged_in_the_middle_is_told(table):
    chip = Chip()
    table.plug(OnTerminal(chip, last=200))
    table.answers("y", "y")
    status, _, err = table.load_image()
    assert (status, err.splitlines()[0]) == (2, "matrixgen: the board went away in the middle")
    chip.power_on()
    table.ports.clear()
    table.plug(OnTerminal(chip))
    assert table.load_image()[0] == 0


def test_another_chip_is_told_by_its_signature_and_nothing_is_erased(table):
    chip = Chip(signature=b"\x1e\x94\x88")
    chip.flash[:4] = b"keep"
    table.plug(OnTerminal(chip))
    status, _, err = table.load_image()
    assert (status, "this is another board" in err, chip.flash[:4]) == (2, True, b"keep")


def test_a_port_that_goes_and_comes_back_under_its_path_is_a_new_one():
    looks = iter([("a", "b"), ("b",), ("a", "b")])
    assert awaited(("a", "b"), lambda: next(looks), 5) == ("a",)
    assert awaited(("a",), lambda: ("a",), 0) == ()


def test_yes_restarts_the_only_board_without_a_question(table, monkeypatch):
    table.plug(OnTerminal(Mute()))
    restarted = []
    monkeypatch.setattr("matrixgen.load.by_serial.restart", restarted.append)
    table.answers("n")
    status, _, err = table.load_image("--yes")
    assert (status, restarted, table.asked) == (2, [table.ports[0].device], [])
    assert "does not answer as a boot loader that speaks AVR109" in err


@pytest.mark.parametrize("answers", [("n",), ("",), None])
def test_nothing_is_sent_to_a_port_that_may_be_anything_s(table, answers):
    chip = Chip()
    table.plug(OnTerminal(chip), product="Modem")
    table.answers(*answers) if answers else table.nobody()
    status, _, err = table.load_image()
    assert (status, bytes(chip.commands)) == (2, b"")
    assert "nothing was sent to" in err and "--port PORT" in err


@pytest.mark.parametrize("words", ["--yes", "--port"])
def test_a_port_that_is_named_or_yes_needs_no_question(table, words):
    chip = table.plugged(Chip())
    table.nobody()
    more = ["--port", table.ports[0].device] if words == "--port" else ["--yes"]
    assert table.load_image(*more)[0] == 0
    assert chip.started and table.asked == []


def test_a_board_that_comes_while_it_is_waited_for_needs_no_question(table):
    chip = Chip()
    table.later(5, lambda: table.plug(OnTerminal(chip)))
    table.nobody()
    assert table.load_image()[0] == 0
    assert chip.started


def test_the_bench_firmware_is_taken_by_itself_and_sent_to_the_loader(table, monkeypatch):
    """Beside a modem, and without a word to either but the speed that asks for the loader."""
    loader, modem = Chip(), Chip()
    bench = OnTerminal(Mute())
    table.plug(OnTerminal(modem), product="Modem")
    table.plug(bench, product="Bench of stick-32u4", ids=BENCH)
    opened_at = speeds_where_comes(OnTerminal(loader), table, monkeypatch)
    table.nobody()
    status, _, err = table.load_image()
    assert (status, err) == (0, "")
    assert opened_at == [1200, 57600] and loader.started and not modem.commands


def test_the_list_names_the_bench_firmware(table):
    table.plug("/dev/ttyACM0", product="Bench of rp2040", ids=BENCH)
    assert table.load("--list")[1] == (
        "port   /dev/ttyACM0  Bench of rp2040 (1209:0002): the bench firmware\n"
    )


@pytest.mark.parametrize("unanswered", [b"?", b"\xf0", b"\x07"])
def test_what_a_loader_answers_is_shown_as_a_person_reads_it(table, unanswered):
    class Odd(Chip):
        def take(self, byte):
            answer = super().take(byte)
            return unanswered if byte == ord("P") else answer

    table.plug(OnTerminal(Odd()))
    err = table.load_image()[2]
    shown = {b"?": "`?`", b"\xf0": "0xF0", b"\x07": "0x07"}[unanswered]
    assert f"the boot loader would not begin: it answered {shown}\n" in err
