"""A load over a serial line: find the board, get it into its boot loader, write, check."""

from __future__ import annotations

from matrixgen.load import patience
from matrixgen.load.avr109 import Avr109
from matrixgen.load.failure import LoadFailure, NoAnswer
from matrixgen.load.flashing import FlashJob, refuse_overrun, write_flash
from matrixgen.load.link import opened, restart
from matrixgen.load.ports import new_ports, serial_ports
from matrixgen.load.talk import Talk

BY_HAND = "press the board's reset button twice, quickly, or start the boot loader by its keys"


def load_by_serial(talk: Talk, job: FlashJob, given: str | None) -> None:
    """Load an image through the port that is given, or else the one that is found or appears.

    Raises `LoadFailure`.
    """
    refuse_overrun(len(job.image), job.room_bytes)
    path = given or _found(talk)
    if _loaded(talk, job, path):
        return
    question = f"`{path}` does not answer as a boot loader; restart the board into its boot loader?"
    if given is None and not talk.agree(question):
        raise LoadFailure(f"`{path}` does not answer as a boot loader", BY_HAND)
    talk.tell("restarting the board into its boot loader")
    if not _loaded(talk, job, _restarted(talk, path)):
        raise LoadFailure(f"`{path}` does not answer as a boot loader that speaks AVR109", BY_HAND)


def _found(talk: Talk) -> str:
    """Return the port of the only board there is, or of the one that the maker means."""
    ports = serial_ports()
    if not ports:
        talk.tell(f"waiting for the board: plug it in; then {BY_HAND}")
        ports = new_ports((), patience.APPEARS)
    if not ports:
        raise LoadFailure("no board has appeared", "`matrixgen load --list` shows what is there")
    if len(ports) == 1:
        return ports[0].path
    return ports[talk.choose("which port is the board?", [p.shown for p in ports])].path


def _restarted(talk: Talk, path: str) -> str:
    """Return the port of a board's boot loader once it has been sent there."""
    before = serial_ports()
    restart(path)
    ports = new_ports(before, patience.RESTARTS)
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
