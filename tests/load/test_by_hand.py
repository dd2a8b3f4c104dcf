"""The commands that are printed for a factory's boot loader, held to the program that they call."""

from __future__ import annotations

import re
import shlex
import subprocess
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.load.by_hand import factory_commands

CHIPS = sorted(
    profile.chip
    for name in builtin_names()
    if (profile := builtin_profile(name)) and profile.boot_loader_speaks == "DFU"
)


def dfu_programmer(*words: str) -> str:
    ran = subprocess.run(["dfu-programmer", *words], capture_output=True, text=True)
    return ran.stdout + ran.stderr


def test_the_chips_and_commands_are_in_its_own_help() -> None:
    commands, targets = dfu_programmer("--help"), dfu_programmer("--targets")
    taken = re.findall(r"^ {8}([a-z-]+)\b", commands.partition("commands:")[2], re.MULTILINE)
    for chip in CHIPS:
        for line in factory_commands(chip, "x.hex"):
            program, target, command, *files = shlex.split(line)
            assert program == "dfu-programmer"
            assert target in targets.split()
            assert command in taken
            usage = re.split(rf"^ {{8}}{command}\b", commands, flags=re.MULTILINE)[1]
            assert bool(files) == ("{file|STDIN}" in re.split(r"^ {8}\w", usage, flags=re.M)[0])


@pytest.mark.parametrize("chip", CHIPS)
@pytest.mark.parametrize("name", ["x.hex", "a pad's.hex"])
def test_it_takes_them_word_for_word_and_misses_the_device_alone(
    chip: str, name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """A chip of another name, or another word, it answers with its usage."""
    monkeypatch.chdir(tmp_path)
    Path(name).write_text(":00000001FF\n")
    for line in factory_commands(chip, name):
        assert dfu_programmer(*shlex.split(line)[1:]) == "dfu-programmer: no device present.\n"
    assert "no device" not in dfu_programmer("atmega99", "erase")
    assert "no device" not in dfu_programmer(chip.lower(), "fill")
