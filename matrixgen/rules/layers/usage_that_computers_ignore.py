"""# usage that computers ignore

## What it does
Finds a key that sends a usage of the keyboard page that many computers ignore, such as
`KeyboardVolumeUp`, `KeyboardMute` and `KeyboardPower`.

## Why it matters
The key would be sent and nothing would happen. The usage tables have keys for sound and power a
second time, on the consumer page and among the system controls, and those are the ones that
computers react to: `VolumeUp`, `Mute`, `Power`.

## Example
```keys
layer base
  A = KeyboardVolumeUp
```

## Do instead
Use the media key, or another key; or write `allow usage-that-computers-ignore A` in the block
`keyboard` if you know that the computer reacts to it.
```keys
layer base
  A = VolumeUp
```

## Reference
The Linux kernel's table of the keyboard page (6.1, drivers/hid/hid-input.c) has no key code for
most of them. That Windows ignores Power and the sound keys of this page is from memory.
"""

from collections.abc import Iterator

from matrixgen.model import Diagnostic, Problem, Severity, sent_usages
from matrixgen.rules.context import Context
from matrixgen.usages import hosts_ignore, word_of
from matrixgen.usages.media import media_usage_of

PROBLEM = Problem("usage-that-computers-ignore", Severity.WARNING, __doc__ or "")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each such usage once, at the first cell that has it."""
    reported: set[int] = set()
    for cell in context.keyboard.cells:
        for usage in sent_usages(cell.action):
            if hosts_ignore(usage) and usage not in reported:
                reported.add(usage)
                yield PROBLEM.at(
                    cell.written.span,
                    f"many computers ignore `{word_of(usage)}` of the keyboard page",
                    help=_media_key(usage),
                    about=cell.key_names,
                )


def _media_key(usage: int) -> str | None:
    """Return the help that offers the media key of the same name, if there is one."""
    word = word_of(usage).removeprefix("Keyboard")
    return f"they react to the media key `{word}`" if media_usage_of(word) else None
