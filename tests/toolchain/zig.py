"""The `zig` of the tests that run a written Makefile.

`zig objcopy` is compiled from its source where it is first used: a quarter of a minute, for a file
of some lines. So the suite hands its calls to binutils' objcopy, which calls this form `ihex` and
would also write where to start, if that is not 0; the long run calls the real one.
"""

from __future__ import annotations

import shlex
import sys
from pathlib import Path

from tests.amounts import IS_LONG

_INSTEAD = """\
#!/bin/sh
[ "$1" = objcopy ] || exec {zig} "$@"
[ "$2 $3" = "-O hex" ] || [ "$2 $3" = "-O binary" ] || exit 2
exec {binutils}-objcopy --set-start 0 -O "$(echo "$3" | sed s/hex/ihex/)" "$4" "$5"
"""


def zig(folder: Path, binutils: str) -> str:
    """Return what to set the Makefile's ZIG to; `binutils` is what stands before `-objcopy`."""
    real = shlex.join([sys.executable, "-m", "ziglang"])
    if IS_LONG:
        return real
    script = folder / "zig"
    script.write_text(_INSTEAD.format(zig=real, binutils=binutils), "utf-8")
    script.chmod(0o755)
    return str(script)
