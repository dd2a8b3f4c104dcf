"""What checks clean is built: a law of drawn files, on each of their controllers."""

from __future__ import annotations

import re
from itertools import count

import pytest

from matrixgen.boards import builtin_profile
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.jobs.build import build_mounted
from matrixgen.jobs.examine import Examined
from matrixgen.model import SourceText
from matrixgen.usages.media import media_words
from tests.amounts import amount
from tests.examples.shipped import COMPILERS
from tests.generator.files import draft
from tests.texts import examined

BUILT = amount("MATRIXGEN_BUILT_DRAFTS", suite=3, long=400)


def clean(first: int) -> Examined:
    """The first drawn file from a seed on, in steps, that `check` has no error for.

    Nor a warning that only a build can tell whether there is room.
    """
    for seed in count(first, BUILT):
        found = examined(draft(seed, sound=True, most_keys=1024 if seed % 3 else 64).text)
        unsure = {"image-near-limit"} & {finding.slug for finding in found.findings}
        if not found.errors and not unsure and found.mounted:
            return found
    raise AssertionError


@pytest.mark.few(2)
@pytest.mark.parametrize("first", range(BUILT))
def test_a_file_without_an_error_is_built_for_each_of_its_controllers(first):
    found = clean(first)
    for mounted in found.mounted:
        kind = COMPILERS[first % len(COMPILERS)]
        source = SourceText(found.path, found.text or "")
        built = build_mounted(mounted, source, "pad", kind, with_sheet=False)
        assert not built.findings
        assert built.image is not None


FEW_KEYS = """\
keyboard "Pad"
  controller atmega32u4

plate
  line {keys}

wiring
  drive rows, sense columns
  diodes 1N4148, band toward rows
  row top on PD0  {keys}
{columns}

layer base
  A = tap B, hold Shift, other hand
"""


@pytest.mark.few(3)
@pytest.mark.parametrize("kind", COMPILERS)
@pytest.mark.parametrize("keys", ["A", "A B", "A B C"])
def test_so_few_keys_that_a_compiler_knows_what_a_table_says_are_built(keys, kind):
    """GCC 5.4 called a table that it had no more need of uninitialized."""
    columns = "\n".join(f"  column c{key} on PB{n}  {key}" for n, key in enumerate(keys.split()))
    found = examined(FEW_KEYS.format(keys=keys, columns=columns))
    assert not found.errors
    (mounted,) = found.mounted
    source = SourceText(found.path, found.text or "")
    assert build_mounted(mounted, source, "pad", kind, with_sheet=False).image


@pytest.mark.parametrize("kind", COMPILERS)
def test_a_media_descriptor_of_more_than_255_bytes_is_built(kind):
    """avr-gcc 5.4 warned of a conversion that it made itself."""
    words = list(dict.fromkeys(media_words()))
    names = [f"K{number}" for number in range(len(words))]
    rows = [names[start : start + 16] for start in range(0, len(names), 16)]
    plate = "\n".join(f"  line {' '.join(row)}" for row in rows)
    wires = "\n".join(f"  row r{n} {' '.join(row)}" for n, row in enumerate(rows))
    columns = "\n".join(
        f"  column c{n} {' '.join(row[n] for row in rows if len(row) > n)}" for n in range(16)
    )
    cells = "\n".join(f"  {name} = {word}" for name, word in zip(names, words, strict=True))
    text = (
        f'keyboard "All"\n  controller at90usb1286\n\nplate\n{plate}\n\nwiring\n'
        f"  diodes 1N4148, band toward columns\n{wires}\n{columns}\n\nlayer base\n{cells}\n"
    )
    found = examined(with_pins(text, "at90usb1286"))
    assert not found.errors, found.errors
    (mounted,) = found.mounted
    source = SourceText(found.path, found.text or "")
    assert firmware_view(mounted, "pad.keys").answer_bits == 16
    assert build_mounted(mounted, source, "pad", kind, with_sheet=False).image


def with_pins(text: str, board: str) -> str:
    """The same file, a free pin at each wire."""
    pins = (pin.name for pin in builtin_profile(board).free_pins)
    return re.sub(r"  (row|column) (\w+) ", lambda wire: f"{wire[0]}on {next(pins)} ", text)
