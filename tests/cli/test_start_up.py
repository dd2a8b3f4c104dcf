"""What a command loads before it does anything."""

import subprocess
import sys

from matrixgen.cli.commands import COMMANDS

LOADED = """\
import importlib, sys
for name in sys.argv[1:]:
    importlib.import_module(f"matrixgen.cli.{name.replace('-', '_')}")
print(*sorted({"jsonschema", "serial", "elftools", "tqdm", "networkx"} & set(sys.modules)))
"""


def test_no_command_waits_for_a_package_before_it_knows_that_it_needs_it():
    names = sorted(COMMANDS)
    loaded = subprocess.run(
        [sys.executable, "-c", LOADED, *names], capture_output=True, text=True, check=True
    )
    assert loaded.stdout == "\n"


def test_the_terminal_is_not_measured_for_options_that_print_no_help(tmp_path):
    code = "import sys, matrixgen.cli.main as m; m.main(['check', '--allowed', sys.argv[1]])\n"
    code += "print('shutil' in sys.modules)"
    pad = tmp_path / "pad.keys"
    pad.write_text("plate\n  line A B\n", "utf-8")
    ran = subprocess.run(
        [sys.executable, "-c", code, str(pad)], capture_output=True, text=True, check=True
    )
    assert ran.stdout.endswith("\nFalse\n")
