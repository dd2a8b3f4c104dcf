"""The RP2040's firmware answers a host just as the AVRs' does: the very same tests, on rp2040py.

Emulated, not silicon. In the suite each is of one compiler's image, each of which is on another
revision of the chip.
"""

from __future__ import annotations

from types import ModuleType

import pytest

from tests.emulators.avr import test_enumeration, test_hid_requests, test_standard_requests
from tests.emulators.rp2040.test_usb import desk  # noqa: F401

pytestmark = pytest.mark.compilers_in_turn


def sentences_of(module: ModuleType) -> dict[str, object]:
    return {name: value for name, value in vars(module).items() if name.startswith("test_")}


for shared in (test_enumeration, test_hid_requests, test_standard_requests):
    globals().update(sentences_of(shared))


def test_no_test_of_the_shared_ones_hides_another() -> None:
    modules = (test_enumeration, test_hid_requests, test_standard_requests)
    names = [name for module in modules for name in sentences_of(module)]
    assert len(names) == len(set(names)) > 30
