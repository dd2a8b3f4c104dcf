"""What a report says, by the report descriptor that the chip gave: hid-tools reads both."""

from __future__ import annotations

from hidtools.hid import ReportDescriptor

KEYBOARD_PAGE = 0x07


class Decoder:
    """Reads input reports of one descriptor."""

    def __init__(self, descriptor: bytes) -> None:
        self._fields = next(
            iter(ReportDescriptor.from_bytes(list(descriptor)).input_reports.values())
        )

    def usages(self, report: bytes) -> set[int]:
        """Return the usages of the keyboard page that are down."""
        down = set()
        for field in self._fields:
            if field.is_const:
                continue
            assert not field.is_array, "the report in report protocol is bits"
            (value,) = field.get_values(list(report))
            if value:
                page, usage = divmod(field.usage, 1 << 16)
                assert page == KEYBOARD_PAGE
                down.add(usage)
        return down
