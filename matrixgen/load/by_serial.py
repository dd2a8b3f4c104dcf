"""A load over a serial line: find the board, get it into its boot loader, write, check."""

from __future__ import annotations

from matrixgen.failure import Failure
from matrixgen.load import patience
from matrixgen.load.avr109 import Avr109
from matrixgen.load.failure import NoAnswer
from matrixgen.load.flashing import FlashJob, refuse_overrun, write_flash
from matrixgen.load.link import opened, restart
from matrixgen.load.talk import Talk
from matrixgen.ports.listing import Port, serial_ports

BY_HAND = "press the board's reset button twice, quickly, or start the boot loader by its keys"


def load_by_serial(talk: Talk, job: FlashJob, given: str | None) -> None:
    """Load an image through the port that is given, or else the one that is found or appears.

    Nothing is sent to a port that was there already, and is not the bench firmware's, before the
    maker has said that it is the board's. Raises `Failure`.
    """
    refuse_overrun(len(job.image), job.room_bytes)
    port = _given(given) if given else _found(talk)
    if not port.is_bench:
        if _loaded(talk, job, port.path):
            return
        _agree_to_restart(talk, port.path, is_given=given is not None)
    talk.tell("restarting the board into its boot loader")
    if not _loaded(talk, job, _restarted(talk, port.path)):
        raise Failure(f"`{port.path}` does not answer as a boot loader that speaks AVR109", BY_HAND)


def _agree_to_restart(talk: Talk, path: str, *, is_given: bool) -> None:
    question = f"`{path}` does not answer as a boot loader; restart the board into its boot loader?"
    if not is_given and not talk.agree(question):
        raise Failure(f"`{path}` does not answer as a boot loader", BY_HAND)


def _given(path: str) -> Port:
    """Return the port of a path, also if it is not one of something on USB."""
    return next((port for port in serial_ports() if port.path == path), Port(path, "", ""))


def _found(talk: Talk) -> Port:
    """Return the port of the only board there is, or of the one that the maker means."""
    ports = serial_ports()
    benches = [port for port in ports if port.is_bench]
    if len(benches) == 1:
        return benches[0]
    if len(ports) == 1:
        return _agreed(talk, ports[0])
    if not ports:
        talk.tell(f"waiting for the board: plug it in; then {BY_HAND}")
        ports = patience.awaited((), serial_ports, patience.APPEARS)
    if not ports:
        raise Failure("no board has appeared", "`matrixgen load --list` shows what is there")
    if len(ports) == 1:
        return ports[0]
    return ports[talk.choose("which port is the board?", [p.shown for p in ports])]


def _agreed(talk: Talk, port: Port) -> Port:
    """Return a port that the maker takes for the board's: a modem would take what is sent, too."""
    if talk.agree(f"{port.shown}: is this the board?"):
        return port
    raise Failure(
        f"nothing was sent to `{port.path}`, which may not be a board", "name it with --port PORT"
    )


def _restarted(talk: Talk, path: str) -> str:
    """Return the port of a board's boot loader once it has been sent there."""
    before = serial_ports()
    restart(path)
    ports = patience.awaited(before, serial_ports, patience.RESTARTS)
    if len(ports) > 1:
        return ports[talk.choose("which port is the boot loader?", [p.shown for p in ports])].path
    return ports[0].path if ports else path


def _loaded(talk: Talk, job: FlashJob, path: str) -> bool:
    """Load through a port; return False where no boot loader answers there."""
    with opened(path) as link:
        loader = Avr109(link)
        try:
            name = loader.wake()
        except NoAnswer:
            return False
        talk.tell(f"{path}: a boot loader that calls itself `{name}`")
        with talk.progress("loading", job.steps) as progress:
            write_flash(loader, job, progress)
    talk.tell(f"{len(job.image):,} bytes written, read back and correct")
    return True
