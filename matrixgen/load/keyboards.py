"""Which keyboards USB shows: the one that was loaded should come up among them.

Linux tells in `/sys/bus/usb/devices`: a folder a device, and one in it for each interface (kernel
documentation, `Documentation/ABI/testing/sysfs-bus-usb`). Other systems are not asked.
"""

from __future__ import annotations

from pathlib import Path

from matrixgen.load import patience
from matrixgen.record import Record

DEVICES = Path("/sys/bus/usb/devices")

KEYBOARD = ("03", "01")
"""Class and protocol of a keyboard's interface (USB HID 1.11, sections 4.1 and 4.3)."""

ATMEL_LOADERS = ("03eb", "2f")
"""Vendor, and how the products begin, of the factory's loaders (dfu-programmer's arguments.c)."""


class UsbDevice(Record):
    """Something on USB: where, its ids as `1209:0001`, and its name."""

    place: str
    ids: str
    name: str


def keyboards() -> tuple[UsbDevice, ...]:
    """Return the keyboards on USB now; none where the system is not one that is asked."""
    return tuple(
        _device(folder)
        for folder in _folders()
        if any(_interface(part) == KEYBOARD for part in folder.glob("*:*"))
    )


def factory_loaders() -> tuple[UsbDevice, ...]:
    """Return the boot loaders of the AVR chips' factory that are on USB now."""
    vendor, products = ATMEL_LOADERS
    return tuple(
        _device(folder)
        for folder in _folders()
        if _said(folder, "idVendor") == vendor and _said(folder, "idProduct").startswith(products)
    )


def appeared(before: tuple[UsbDevice, ...]) -> UsbDevice | None:
    """Wait for a keyboard that was not there before, and return it; None where none comes."""
    if not DEVICES.is_dir():
        return None
    return next(iter(patience.awaited(before, keyboards, patience.TYPES)), None)


def _folders() -> list[Path]:
    return sorted(folder.parent for folder in DEVICES.glob("*/idVendor"))


def _device(folder: Path) -> UsbDevice:
    ids = f"{_said(folder, 'idVendor')}:{_said(folder, 'idProduct')}".upper()
    return UsbDevice(folder.name, ids, _said(folder, "product") or "no name")


def _interface(folder: Path) -> tuple[str, str]:
    return _said(folder, "bInterfaceClass"), _said(folder, "bInterfaceProtocol")


def _said(folder: Path, name: str) -> str:
    """Return what a file of a device says; nothing where the device has just gone."""
    try:
        return (folder / name).read_text("utf-8", "replace").strip()
    except OSError:
        return ""
