"""How an image gets into a controller, in words for `pins.md`: the command, and by hand."""

from __future__ import annotations

import re
import shlex
from collections.abc import Iterator

from matrixgen.boards import Profile
from matrixgen.emit.jinja import markdown_cell


def loading(profile: Profile, path: str, name: str) -> tuple[str, ...]:
    """Return sentences, in Markdown, for a file at a path whose images are called `name`."""
    family = profile.family_record
    if family is None or not profile.port or not profile.has_boot_loader:
        return ()
    file = re.split(r"[/\\]", path)[-1]
    return tuple(_sentences(profile, file, f"{name}.{family.images[0]}"))


def _sentences(profile: Profile, file: str, image: str) -> Iterator[str]:
    """Yield them; a file of several controllers has more to type, as the command says."""
    command = f"matrixgen load {shlex.quote(file)}"
    shown = markdown_cell(image)
    if profile.boot_loader_speaks == "UF2":
        yield (
            f"{markdown_cell(command)} builds the firmware and loads it. By hand: start the boot "
            f"loader, and drag {shown} onto the drive that appears. The drive disappears by itself."
        )
    elif profile.boot_loader_speaks == "AVR109":
        yield (
            f"{markdown_cell(command)} builds the firmware, loads {shown} over the board's serial "
            "port and reads it back."
        )
    elif profile.boot_loader_speaks == "DFU":
        yield (
            f"{markdown_cell(command)} prints the commands that load {shown} with the factory's "
            "boot loader."
        )
    else:
        yield (
            f"It is not known how this board's boot loader takes {shown}: use the program that its "
            f"maker names, or {markdown_cell(command + ' --port PORT')} if it speaks AVR109."
        )
