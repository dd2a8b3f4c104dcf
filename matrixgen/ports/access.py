"""What to do where a serial port is there and may not be used."""

from __future__ import annotations

import sys
from pathlib import Path


def access_helps(path: str) -> tuple[str, ...]:
    """Return what to do, once, so that ports may be used from then on."""
    if not sys.platform.startswith("linux"):
        return ("ask whoever looks after this computer for access to serial ports",)
    group = _group_of(path)
    if group is None or group == "root":
        return (
            f"for now: `sudo chmod a+rw {path}`",
            "for good: a file /etc/udev/rules.d/60-serial.rules with the line "
            '`KERNEL=="ttyACM[0-9]*", GROUP="plugdev", MODE="0660", TAG+="uaccess"`, '
            "then plug the board in again",
        )
    return (f"once: `sudo usermod -aG {group} $USER`, then log out and in again",)


def _group_of(path: str) -> str | None:
    """Return the group that a port belongs to: Debian's is `dialout`, others' is `uucp`."""
    import grp

    try:
        return grp.getgrgid(Path(path).stat().st_gid).gr_name
    except (OSError, KeyError):
        return None
