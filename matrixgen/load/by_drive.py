"""A load onto the drive of a UF2 boot loader: find it, see that it is the right one, copy."""

from __future__ import annotations

from pathlib import Path

from matrixgen.failure import Failure
from matrixgen.families import Family
from matrixgen.load import patience
from matrixgen.load.copying import copy_to, pieces_of
from matrixgen.load.drives import INFO, Drive, drive_at, drives
from matrixgen.load.link import restart
from matrixgen.load.talk import Talk
from matrixgen.load.uf2_file import refuse_bad_uf2
from matrixgen.ports.listing import serial_ports
from matrixgen.record import Record

BY_HAND = "hold the board's boot button down while you plug it in"


class DriveJob(Record):
    """What goes onto a drive: the file, its name there, the family and flash that it is for."""

    data: bytes
    name: str
    family: Family
    flash_bytes: int


def load_by_drive(talk: Talk, job: DriveJob, given: str | None) -> None:
    """Load a UF2 file onto the drive that is given, or else the one that is found or appears.

    Raises `Failure`.
    """
    refuse_bad_uf2(job.data, job.family, job.flash_bytes)
    drive = _given(given) if given else _found(talk)
    if drive.board_id != job.family.uf2_board_id:
        raise Failure(
            f"the drive belongs to a `{drive.board_id or drive.model}`, "
            f"but the image is for the {job.family.name.upper()}, "
            f"which calls itself `{job.family.uf2_board_id}`",
            "nothing was written: name your controller in the file, and build again",
        )
    talk.tell(drive.shown)
    with talk.progress("copying", pieces_of(job.data)) as progress:
        copy_to(drive, job.name, job.data, progress)
    talk.tell(f"{len(job.data):,} bytes copied, and the board has restarted with them")


def _given(path: str) -> Drive:
    drive = drive_at(Path(path))
    if drive is None:
        raise Failure(f"`{path}` is not a boot loader's drive: it has no {INFO} file", BY_HAND)
    return drive


def _found(talk: Talk) -> Drive:
    """Return the only drive there is, or the one that the maker means."""
    found = drives()
    benches = [port for port in serial_ports() if port.is_bench]
    if not found and len(benches) == 1:
        talk.tell("restarting the board into its boot loader")
        restart(benches[0].path)
        found = patience.awaited((), drives, patience.RESTARTS)
    if not found:
        talk.tell(f"waiting for the board's drive: {BY_HAND}")
        found = patience.awaited((), drives, patience.APPEARS)
    if not found:
        raise Failure(
            "no boot loader's drive has appeared",
            "if this computer does not mount drives by itself, mount it and give --mount PATH",
        )
    if len(found) == 1:
        return found[0]
    return found[talk.choose("which drive is the board?", [one.shown for one in found])]
