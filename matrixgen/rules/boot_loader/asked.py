"""Where a file asks for the boot loader: by keys held together, and by a key whose action it is."""

from __future__ import annotations

from collections.abc import Iterator

from matrixgen.model import Keyboard, Span, starts_boot_loader


def asked_for(keyboard: Keyboard) -> Iterator[Span]:
    """Yield each place that asks for it; `double reset`, which is no key, has rules of its own."""
    if keyboard.boot_loader.hold_span:
        yield keyboard.boot_loader.hold_span
    for named in keyboard.actions:
        if starts_boot_loader(named.action):
            yield named.name.span
    names = {named.name.text for named in keyboard.actions}
    for cell in keyboard.cells:
        if starts_boot_loader(cell.action) and cell.written.text not in names:
            yield cell.written.span
