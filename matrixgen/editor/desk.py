"""All files that are open in an editor, and what is shown of each."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from pathlib import Path

from matrixgen.editor.addresses import address_of, folder_of, path_of
from matrixgen.editor.open_file import OpenFile, OpenText
from matrixgen.editor.shown import Findings, FindingsShown
from matrixgen.jobs.examine import Examined
from matrixgen.model import SourceText
from matrixgen.reach import read_shown
from matrixgen.record import Record
from matrixgen.source.limits import LIMITS


class ToShow(Record):
    """What an editor is to show of some files by path, and which of it is only left open."""

    by_path: Mapping[str, Findings]
    still_open: Findings


class Desk:
    """The open files by their addresses; what is asked of any other file finds nothing."""

    def __init__(self) -> None:
        self._files: dict[str, OpenFile] = {}
        self._shown = FindingsShown()
        self._examined: dict[str, tuple[OpenText, Examined]] = {}

    def open(self, address: str, text: str) -> OpenFile:
        """Open a file; one that is open already gets the text."""
        if address not in self._files:
            self._files[address] = OpenFile(path_of(address), folder_of(address), text)
        else:
            self._files[address].change(text)
        return self._files[address]

    def file(self, address: str) -> OpenFile | None:
        """Return an open file."""
        return self._files.get(address)

    def addresses(self) -> tuple[str, ...]:
        """Return the addresses of all open files."""
        return tuple(self._files)

    def close(self, address: str) -> ToShow:
        """Close a file, and return what is to be shown now: nothing of it any more."""
        file = self._files.pop(address, None)
        self._examined.pop(file.path if file else "", None)
        return ToShow(self._shown.take_down(file.path) if file else {}, ())

    def check(self, file: OpenFile) -> Iterator[ToShow | None]:
        """Yield what is to be shown of a file and of those that it names; see `OpenFile.check`."""
        for one in file.check():
            if one is None:
                yield None
            else:
                still_open = tuple(point.finding for point in one.open_points)
                found = (*one.findings, *still_open)
                yield ToShow(self._shown.post(file.path, found), still_open)

    def examined(self, file: OpenFile) -> Examined:
        """Return all that is found in a file as it is now: what was found last, if it still is."""
        known = self._examined.get(file.path)
        if known is None or known[0] is not file.now:
            self._examined[file.path] = known = file.now, file.examined()
        return known[1]

    def found(self, file: OpenFile) -> Findings:
        """Return the findings in a file itself."""
        return tuple(one for one in self.examined(file).findings if one.span.path == file.path)

    def address_of(self, path: str) -> str:
        """Return the address of a file, as the editor gave it if it is open."""
        known = (address for address, file in self._files.items() if file.path == path)
        return next(known, None) or address_of(path)

    def source_of(self, path: str) -> SourceText:
        """Return the text of a file: as it is in the editor, or else as it is on disk."""
        known = next((file for file in self._files.values() if file.path == path), None)
        return known.now.source if known else _on_disk(path)


def _on_disk(path: str) -> SourceText:
    try:
        data = read_shown(Path(path), LIMITS.file_bytes)
    except (OSError, ValueError):
        data = b""
    return SourceText(path, data.decode("utf-8", "replace"))
