"""What a report says, by the report descriptor that the chip gave: hid-tools reads both."""

from __future__ import annotations

from collections.abc import Iterable

from hidtools.hid import HidField, ReportDescriptor

KEYBOARD_PAGE = 0x07
Usage = tuple[int, int]
"""Page and number."""


class Decoder:
    """Reads input reports of one descriptor."""

    def __init__(self, descriptor: bytes) -> None:
        self._descriptor = ReportDescriptor.from_bytes(list(descriptor))

    def usages(self, report: bytes) -> set[int]:
        """Return the usages of the keyboard page that are down."""
        (fields,) = self._descriptor.input_reports.values()
        found = _down(fields, report)
        assert {page for page, _ in found} <= {KEYBOARD_PAGE}
        return {usage for _, usage in found}

    def media(self, report: bytes) -> set[Usage]:
        """Return what is down in a report that begins with its number."""
        fields = self._descriptor.get(report[0], len(report))
        assert fields is not None, f"no such report: {report.hex()}"
        return _down(fields, report)


def _down(fields: Iterable[HidField], report: bytes) -> set[Usage]:
    down = set()
    for field in fields:
        if field.is_const:
            continue
        assert not field.is_array, "the report in report protocol is bits"
        (value,) = field.get_values(list(report))
        if value and field.usage_name != "Report ID":
            down.add(divmod(field.usage, 1 << 16))
    return down
