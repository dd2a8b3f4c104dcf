"""The host build of one keyboard, in objects, so that a mutant costs one of them and a link."""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

from matrixgen.emit.firmware_tree import whole_tree
from matrixgen.model import Keyboard
from tests.firmware.host_build import FOLDERS, HostKeyboard, host_view, sources, write_tree
from tests.firmware.test_host_usb import UsbKeyboard
from tests.mutants.changes import Mutant

OPTIONS = ("-std=c11", "-O2", "-fPIC", "-w")
TRAPS = ("-fsanitize=bounds,object-size,shift,null", "-fsanitize-undefined-trap-on-error")
"""Ends the process where an array is left or a shift is undefined; needs no library."""


class Workshop:
    """One keyboard's firmware, built; `built` builds it anew with a mutant in it."""

    def __init__(
        self, keyboard: Keyboard, folder: Path, kind: type[HostKeyboard] = HostKeyboard
    ) -> None:
        self.keyboard, self.view, self.kind = keyboard, host_view(keyboard), kind
        self.tree = write_tree(whole_tree(self.view), folder)
        with_usb = issubclass(kind, UsbKeyboard)
        self.files = [p.relative_to(folder) for p in sources(folder, with_usb=with_usb)]
        self.objects = {file: self._compile(file) for file in self.files}
        self.original = self._link(self.objects, "original.so")

    def _run(self, *words: str | Path) -> bool:
        return subprocess.run(["gcc", *words], cwd=self.tree, capture_output=True).returncode == 0

    def _compile(self, file: Path, *options: str) -> Path | None:
        """Compile one file from where it lies; None if it is no C."""
        output = self.tree / "objects" / f"{'-'.join(file.parts)}{len(options)}.o"
        output.parent.mkdir(exist_ok=True)
        includes = [f"-I{folder}" for folder in FOLDERS]
        done = self._run(*OPTIONS, *options, *includes, "-c", file, "-o", output)
        return output if done else None

    def _link(self, objects: dict[Path, Path | None], name: str) -> Path | None:
        output = self.tree / name
        output.unlink(missing_ok=True)  # a process may have the one before
        done = self._run("-shared", "-o", output, *(path for path in objects.values() if path))
        return output if done else None

    def concerned(self, file: str) -> list[Path]:
        """Return what has to be compiled when a file changes."""
        if file.endswith(".c"):
            return [Path(file)]
        include = re.compile(rf'#include "(behaviours/)?{Path(file).name}"')
        return [one for one in self.files if include.search((self.tree / one).read_text("utf-8"))]

    def built(self, mutant: Mutant, *options: str) -> Path | None:
        """Return the library with a mutant in it; None if it is no C, or the same machine code."""
        path = self.tree / mutant.file
        text, concerned = path.read_text("utf-8"), self.concerned(mutant.file)
        kept = {file: self.objects[file].read_bytes() for file in concerned}
        path.write_text(mutant.text, encoding="utf-8")
        try:
            objects = {file: self._compile(file, *options) for file in concerned}
            if None in objects.values():
                return None
            if all(objects[file].read_bytes() == kept[file] for file in concerned):
                return None
            return self._link({**self.objects, **objects}, "mutant.so")
        finally:
            path.write_text(text, encoding="utf-8")
            for file, content in kept.items():
                self.objects[file].write_bytes(content)

    def open(self, library: Path) -> HostKeyboard:
        return self.kind(library, self.view)
