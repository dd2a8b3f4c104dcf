"""A folder that behaves as the drive of a boot loader in ROM does: it looks when it is written to.

By the boot ROM's rules (pico-bootrom-rp2040, virtual_disk.c; facts sheet G.2): a block counts where
its magics, family and size are right; when all blocks are there the drive goes.
"""

from __future__ import annotations

import struct
from pathlib import Path
from typing import ClassVar

INFO = "UF2 Bootloader v3.0\nModel: Raspberry Pi RP2\nBoard-ID: RPI-RP2\n"
FAMILY = 0xE48BFF56


class FolderDrive:
    """A drive at `path`; `stays` never goes, `early` goes after so many bytes of a file."""

    _made: ClassVar[list[FolderDrive]] = []

    def __init__(self, path: Path, *, info: str = INFO, early: int | None = None) -> None:
        path.mkdir(parents=True)
        (path / "INFO_UF2.TXT").write_text(info, "ascii")
        (path / "INDEX.HTM").write_text("<html>", "ascii")
        self.path, self.early, self.flash = path, early, b""
        self._looks = True
        self._made.append(self)

    @classmethod
    def all_look(cls) -> None:
        """Let every drive see what was written, as the real one does at each block."""
        for drive in cls._made:
            if drive._looks:
                drive._look()

    def _look(self) -> None:
        for file in self.path.glob("*.[uU][fF]2"):
            data = file.read_bytes()
            if self.early is not None and len(data) >= self.early:
                return self.go()
            if self._take(data):
                return self.go()

    def _take(self, data: bytes) -> bool:
        got = {}
        count = None
        for start in range(0, len(data) - 511, 512):
            one, two, flags, at, size, number, count, family = struct.unpack_from(
                "<8I", data, start
            )
            magics = (one, two, *struct.unpack_from("<I", data, start + 508))
            right = magics == (0x0A324655, 0x9E5D5157, 0x0AB16F30) and flags == 0x2000
            if right and family == FAMILY and size == 256:
                got[number] = (at, data[start + 32 : start + 288])
        if not count or len(got) != count:
            return False
        self.flash = b"".join(piece for _, piece in sorted(got.values()))
        return True

    def go(self) -> None:
        """Go away, with all that is on it."""
        self._looks = False
        self.path.rename(self.path.with_name(f"gone-{self.path.name}-{id(self)}"))

    def stay(self) -> None:
        """Take no more notice of what is written."""
        self._looks = False

    @classmethod
    def forget_all(cls) -> None:
        """Forget every drive that a test has made."""
        cls._made.clear()
