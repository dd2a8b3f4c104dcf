"""How the boot loader is entered on a keyboard, in words for whoever has an image to load."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.emit.jinja import markdown_cell
from matrixgen.model import BASE, Keyboard, starts_boot_loader


def boot_loader_ways(keyboard: Keyboard) -> Iterator[str]:
    """Yield a sentence, in Markdown, for each way that the file asks for."""
    asked = keyboard.boot_loader
    if asked.hold:
        *most, last = (markdown_cell(word.text) for word in asked.hold)
        yield f"Hold down {', '.join(most)} and {last} together for one second."
    if asked.double_reset:
        yield "Press the reset button twice within half a second."
    for layer in keyboard.layers:
        for cell in layer.every_cell:
            if starts_boot_loader(cell.action):
                keys, name = map(markdown_cell, cell.key_names), layer.name.text
                on = "" if name == BASE else f" while layer {markdown_cell(name)} is on"
                together = " together" if len(cell.key_names) > 1 else ""
                yield f"Press {' and '.join(keys)}{together}{on}."
