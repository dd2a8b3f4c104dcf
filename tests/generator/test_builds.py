"""What checks clean is built: a law of drawn files, on each of their controllers."""

from __future__ import annotations

from itertools import count

import pytest

from matrixgen.jobs.build import build_mounted
from matrixgen.model import SourceText
from tests.amounts import amount
from tests.examples.shipped import COMPILERS
from tests.generator.files import draft
from tests.generator.test_laws import Examined, examined

BUILT = amount("MATRIXGEN_BUILT_DRAFTS", suite=6, long=400)


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


@pytest.mark.parametrize("first", range(BUILT))
def test_a_file_without_an_error_is_built_for_each_of_its_controllers(first):
    found = clean(first)
    for mounted in found.mounted:
        kind = COMPILERS[first % len(COMPILERS)]
        source = SourceText(found.path, found.text or "")
        built = build_mounted(mounted, source, "pad", kind, with_sheet=False)
        assert not built.findings and built.missing is None
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
