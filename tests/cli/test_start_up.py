"""What a command loads before it does anything."""

import subprocess
import sys

from matrixgen.cli.commands import COMMANDS

LAYS_OUT = {"fit"}
LOADED = """\
import importlib, sys
for name in sys.argv[1:]:
    importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}")
print(*sorted({"numpy", "scipy"} & set(sys.modules)))
"""


def test_only_what_lays_keys_out_waits_for_numpy_and_scipy():
    names = sorted(set(COMMANDS) - LAYS_OUT)
    loaded = subprocess.run(
        [sys.executable, "-c", LOADED, *names], capture_output=True, text=True, check=True
    )
    assert loaded.stdout == "\n"
