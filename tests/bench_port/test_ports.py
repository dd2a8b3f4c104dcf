"""Which port `learn` and `probe` take, and what is said of one that cannot be used."""

from __future__ import annotations

import errno
import os
from types import SimpleNamespace

import pytest
from serial import SerialException
from serial.tools import list_ports

from matrixgen.bench.serial.port import chosen_port, open_port
from matrixgen.failure import Failure
from matrixgen.ports import opening
from matrixgen.ports.access import access_helps
from tests.load.clock import Clock
from tests.pseudo_port import PseudoPort

BENCH, MODEM = (0x1209, 0x0002, "Bench of rp2040"), (0x1234, 5, "Modem")


def plugged(monkeypatch, *things):
    found = [
        SimpleNamespace(
            device=f"/dev/ttyACM{place}", vid=vid, pid=pid, product=name, description=""
        )
        for place, (vid, pid, name) in enumerate(things)
    ]
    monkeypatch.setattr(list_ports, "comports", lambda: found)


def refusal(given=None):
    with pytest.raises(Failure) as caught:
        chosen_port(given)
    return caught.value


@pytest.mark.parametrize("things", [[BENCH], [MODEM, BENCH], [MODEM, BENCH, MODEM]])
def test_the_bench_firmware_is_found_among_whatever_there_is(things, monkeypatch):
    plugged(monkeypatch, *things)
    assert chosen_port(None) == f"/dev/ttyACM{things.index(BENCH)}"


def test_a_port_that_is_another_s_is_not_taken_unless_it_is_named(monkeypatch):
    plugged(monkeypatch, MODEM)
    said = refusal()
    assert "there is `/dev/ttyACM0  Modem (1234:0005)`" in said.text
    assert "--port PORT" in said.helps[-1]
    assert chosen_port("/dev/ttyACM0") == "/dev/ttyACM0"


def test_of_two_benches_one_has_to_be_named(monkeypatch):
    plugged(monkeypatch, BENCH, MODEM, BENCH)
    said = refusal()
    assert "ttyACM0" in said.text and "ttyACM2" in said.text
    assert "ttyACM1" not in said.text


def test_no_port_at_all_is_said(monkeypatch):
    plugged(monkeypatch)
    assert refusal().text == "there is no USB serial port"


class Refusing:
    """A system that refuses a port so many times, and then opens it."""

    def __init__(self, monkeypatch, times: int, number: int) -> None:
        self.clock, self._left, self._number = Clock(), times, number
        self._open = opening.open_once
        monkeypatch.setattr(opening, "time", self.clock)
        monkeypatch.setattr(opening, "open_once", self.open)

    def open(self, path, baud):
        if self._left:
            self._left -= 1
            raise SerialException(self._number, f"could not open port {path}: [Errno ...]")
        return self._open(path, baud)


@pytest.mark.parametrize("number", [errno.EBUSY, errno.EAGAIN, errno.EACCES, errno.ENOENT])
def test_a_port_that_is_busy_for_a_moment_is_tried_again(number, monkeypatch):
    refusing = Refusing(monkeypatch, 5, number)
    port = PseudoPort()
    opened = open_port(port.path)
    assert 0 < refusing.clock.now < opening.OPENS
    opened.close()
    port.close()


@pytest.mark.parametrize(
    ("number", "words", "help"),
    [
        (errno.EBUSY, "another program has `{}` open", "a modem manager"),
        (errno.EACCES, "you may not use `{}`", None),
        (errno.ENOENT, "there is no port `{}`", "load --list"),
        (errno.EIO, f"`{{}}` cannot be opened: {os.strerror(errno.EIO).lower()}", None),
    ],
)
def test_what_stays_refused_is_said_as_load_says_it(number, words, help, monkeypatch):
    Refusing(monkeypatch, 10_000, number)
    with pytest.raises(Failure) as caught:
        open_port("/dev/null")
    assert caught.value.text.lower() == words.format("/dev/null").lower()
    if number == errno.EACCES:
        assert caught.value.helps == access_helps("/dev/null")
    assert help is None or help in caught.value.helps[0]


def test_a_file_that_is_no_port_is_said(tmp_path):
    (tmp_path / "x.txt").write_text("")
    with pytest.raises(Failure, match="is not a serial port"):
        open_port(str(tmp_path / "x.txt"))
