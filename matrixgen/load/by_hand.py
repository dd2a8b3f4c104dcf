"""What to type for a boot loader that this program does not speak with.

The factory's loader of these chips takes an image by USB's class for firmware upgrades. The command
is that of Debian's package `dfu-programmer` (its manual page, sections USAGE and Commands).

Why it is left to that program: such a loader takes commands of its maker's inside that class,
another set of them for each group of chips (from memory), and no emulator has one to try them on.
Python can speak to one by the packages `pyusb` and `libusb-package` (0.7 MB; they load on
Debian), but still needs a udev rule there, and on Windows a driver that is installed by hand: not
less to do for the maker than with a package that is known to work.
"""

from __future__ import annotations

import shlex


def factory_commands(chip: str, image: str) -> tuple[str, ...]:
    """Return what to type, in order, to load an Intel HEX file into a chip."""
    program = f"dfu-programmer {chip.lower()}"
    return (f"{program} erase", f"{program} flash {shlex.quote(image)}")
