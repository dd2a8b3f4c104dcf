"""What to type for a boot loader that this program does not speak with.

The factory's loader of these chips takes an image by USB's class for firmware upgrades. The command
is that of Debian's package `dfu-programmer` (its manual page, sections USAGE and Commands).
"""

from __future__ import annotations

import shlex


def factory_commands(chip: str, image: str) -> tuple[str, ...]:
    """Return what to type, in order, to load an Intel HEX file into a chip."""
    program = f"dfu-programmer {chip.lower()}"
    return (f"{program} erase", f"{program} flash {shlex.quote(image)}")
