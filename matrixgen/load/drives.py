"""Drives of UF2 boot loaders: a drive is one by the file INFO_UF2.TXT at its top.

Source: the published UF2 specification, "Files exposed by bootloaders".
"""

from __future__ import annotations

import re
import sys
from collections.abc import Iterable, Iterator
from pathlib import Path
from string import ascii_uppercase

from matrixgen.reading import read_regular
from matrixgen.record import Record

INFO = "INFO_UF2.TXT"
MOST_INFO_BYTES = 64_000
MOUNTS = Path("/proc/self/mounts")
"""Where Linux tells what is mounted where (proc(5))."""

VOLUMES = Path("/Volumes")
"""Where macOS mounts drives."""

REMOVABLE = 2
"""What Windows calls the type of a drive that may go (GetDriveTypeW: DRIVE_REMOVABLE)."""


class Drive(Record):
    """A drive of a boot loader: where it is mounted, and what its board says that it is.

    `device` is the file of what is mounted there, None where the system does not tell.
    """

    path: str
    model: str
    board_id: str
    device: str | None = None

    @property
    def shown(self) -> str:
        """A line for people: `/media/me/RPI-RP2  Raspberry Pi RP2 (RPI-RP2)`."""
        return f"{self.path}  {self.model} ({self.board_id})"


def drives() -> tuple[Drive, ...]:
    """Return the boot loaders' drives that are mounted now, by their paths."""
    found = (drive_at(path) for path in sorted(_mounted()))
    return tuple(drive for drive in found if drive is not None)


def drive_at(path: Path) -> Drive | None:
    """Return the drive that is mounted at a path; None where that is none of a boot loader's."""
    try:
        text = read_regular(path / INFO, MOST_INFO_BYTES).decode("ascii", "replace")
    except OSError:
        return None
    said = dict(re.findall(r"^([\w-]+):[ \t]*(.*?)\s*$", text, re.MULTILINE))
    device = _mounted().get(path)
    return Drive(str(path), said.get("Model", "no name"), said.get("Board-ID", ""), device)


def is_gone(drive: Drive) -> bool:
    """Whether a drive is there no more; what was read of it before may still be remembered."""
    if drive.device is not None and not Path(drive.device).exists():
        return True
    return drive_at(Path(drive.path)) is None


def _mounted() -> dict[Path, str | None]:
    """Return where drives are mounted, each with its device's file where that is known."""
    if sys.platform == "win32":
        return dict.fromkeys(_letters())
    if sys.platform == "darwin":
        return {path: None for path in VOLUMES.glob("*") if path.is_dir()}
    try:
        lines = MOUNTS.read_text("utf-8", "surrogateescape").splitlines()
    except OSError:
        return {}
    return dict(_of_devices(line.split(" ") for line in lines if line.count(" ") > 1))


def _letters() -> Iterator[Path]:
    """Yield the removable drives of Windows by their letters, without a look at what is in them."""
    if sys.platform != "win32":
        return
    import ctypes

    kernel = ctypes.windll.kernel32
    there = kernel.GetLogicalDrives()  # bit n for the letter of that number
    for place, letter in enumerate(ascii_uppercase):
        root = f"{letter}:\\"
        if there >> place & 1 and kernel.GetDriveTypeW(root) == REMOVABLE:
            yield Path(root)


def _of_devices(mounts: Iterable[list[str]]) -> Iterator[tuple[Path, str]]:
    """Yield what is mounted of a device: neither the network's nor the system's own."""
    for device, place, *_ in mounts:
        if device.startswith("/dev/"):
            yield Path(re.sub(r"\\([0-7]{3})", lambda octal: chr(int(octal[1], 8)), place)), device
