"""The keyboard's input report: HID 1.11 appendix B.1, and a bit for each usage after it."""

from __future__ import annotations

from dataclasses import dataclass

from matrixgen.behaviour.state import Held

BOOT_BYTES, USAGE_BYTES = 8, 28
ERROR_ROLL_OVER = 0x01
MOST_IN_BOOT = 6


def report_of(held: Held, boot: bool) -> bytes:
    """Return what a host is sent of what is down; see HID 1.11 appendix C for more than six."""
    usages = sorted(held.usages)
    keys = usages if len(usages) <= MOST_IN_BOOT else [ERROR_ROLL_OVER] * MOST_IN_BOOT
    first = bytes([held.modifiers, 0, *keys]).ljust(BOOT_BYTES, b"\0")
    bits = sum(1 << usage for usage in usages)
    return first if boot else first + bits.to_bytes(USAGE_BYTES, "little")


@dataclass
class LastReport:
    """The report that the host got last, and whether it may have forgotten."""

    report: bytes | None = None
    boot: bool = False
    doubtful: bool = False

    def is_news(self, report: bytes, boot: bool) -> bool:
        """Whether a report has to be sent; from then on it has been."""
        if self.report is None:
            fresh = any(report)
        elif self.doubtful or boot != self.boot:
            fresh = any(report) or any(self.report)
        else:
            fresh = report != self.report
        self.report, self.boot, self.doubtful = report, boot, False
        return fresh
