"""A user's own profile and firmware: what none can be built from, and what has none."""

import json

import pytest

from tests.boards.own_files import good, load, marked, only, sound


@pytest.mark.parametrize(
    ("field", "value", "said"),
    [
        ("port", "rp2040", "the port `rp2040` is not for the family `avr`"),
        ("chip", "ATmega328P", "the port `avr` has no firmware for the chip `ATmega328P`"),
        ("clock_hz", 12_000_000, "needs a clock of 8000000 or 16000000 Hz"),
    ],
)
def test_what_the_port_cannot_build_is_told_before_its_compiler_is_run(
    tmp_path, field, value, said
):
    profile, findings = load(tmp_path, good() | {field: value})
    assert profile is None
    found = only(findings)
    assert said in found.message
    assert marked(tmp_path, found) == json.dumps(value)


@pytest.mark.parametrize(
    ("family", "help"),
    [
        ("rp2040", 'write `"port": "rp2040"`'),
        ("avrr", "`avr` has a similar name"),
        ("stm32f1", None),
    ],
)
def test_a_port_of_another_family_gets_the_cure_that_fits_the_family(tmp_path, family, help):
    found = only(load(tmp_path, good() | {"family": family})[1])
    assert found.message == f"the port `avr` is not for the family `{family}`"
    assert marked(tmp_path, found) == '"avr"'
    none = 'where there is no firmware for the chip, write `"port": null`'
    assert found.helps == tuple(filter(None, [help, none]))


PINS_ONLY = {"port": None}


def test_a_chip_and_a_family_without_a_port_may_be_any(tmp_path):
    changes = {"chip": "ESP32-C6", "family": "esp32c6", "clock_hz": 12_000_000}
    assert sound(tmp_path, good() | PINS_ONLY | changes).family_record is None


@pytest.mark.parametrize("said", [None, "pins only", "builds", "emulated", "silicon"])
def test_what_a_profile_claims_of_its_firmware_is_not_heeded(tmp_path, said):
    claim = {"proof": said} if said else {}
    for port, proof in (("avr", "not proven"), (None, "pins only")):
        assert sound(tmp_path, good() | {"port": port} | claim).proof == proof


def test_a_pin_that_is_called_by_its_label_is_told_of(tmp_path):
    document = good()
    free = next(pin for pin in document["pins"] if pin["use"] == "free")
    free["name"] = "D3"
    found = only(load(tmp_path, document)[1])
    assert found.message == "`D3` is not the name of a pin of the family `avr`"
