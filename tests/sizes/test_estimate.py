"""What is foretold of an image's size, beside images that are built: 200 where that is asked for.

`MATRIXGEN_SIZES=100` builds as many by each compiler; the suite itself builds a few. Where these
tests fail after a change of the firmware, `python -m tests.sizes` measures anew.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import cache
from itertools import cycle, islice

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.image_size import all_measured, code_uses, measured, table_bytes
from matrixgen.families import AVR, FAMILIES
from matrixgen.jobs.foretell import forecasts, room_findings
from matrixgen.jobs.room import (
    FORETOLD,
    LARGEST_CELL,
    LARGEST_CODE,
    LARGEST_KEY,
    LARGEST_VARIABLES,
    UNSURE,
    may_lack_room,
)
from matrixgen.record import changed
from matrixgen.source.limits import LIMITS
from matrixgen.toolchain import Budget, find_compiler
from tests.amounts import amount
from tests.examples.shipped import BUILDS, COMPILERS, example, image
from tests.sizes.keyboards import PRESSES
from tests.sizes.measure import CONTROLLERS, SOURCE, Sized, all_sized, random_keyboards
from tests.texts import examined

IMAGES = amount("MATRIXGEN_SIZES", suite=1, long=100)


@cache
def built(kind: str) -> list[Sized]:
    """Images that the fit never saw: another seed."""
    keyboards = list(islice(random_keyboards(CONTROLLERS, "tried"), IMAGES))
    return all_sized(keyboards, kind, workers=1 if IMAGES < 10 else 2)


def everything(kind: str) -> Iterator[Sized]:
    yield from built(kind)
    for name in [name for name, family, by in BUILDS if (family, by) == (AVR.name, kind)]:
        mounted = example(name, AVR.name).mounted
        made, view = image(name, kind, AVR.name), firmware_view(mounted, SOURCE)
        yield Sized(mounted.profile.name, view, made.flash_used, made.ram_used)


def shares_off(one: Sized, kind: str) -> tuple[float, float]:
    """By how much of what the controller has the forecast of its flash and RAM is off."""
    row = measured(one.view.chip, kind)
    room = Budget.of(AVR, builtin_profile(one.controller))
    flash, ram = row.flash_of(one.view) - one.flash, row.ram_of(one.view) - one.ram
    return abs(flash) / room.flash, abs(ram) / room.ram


@pytest.mark.parametrize("kind", COMPILERS)
def test_what_is_foretold_is_off_by_less_than_the_margin_that_it_is_given(kind, capsys):
    off = [shares_off(one, kind) for one in everything(kind)]
    most = [max(each) for each in zip(*off, strict=True)]
    with capsys.disabled():
        told = f"off by at most {most[0]:.2%} of the flash and {most[1]:.2%} of the RAM"
        print(f"\n{kind}: {len(off)} images, {told} that there is", end=" ")
    assert max(most) < UNSURE


def test_every_chip_whose_flash_a_file_could_fill_was_measured_by_both_compilers():
    """The largest file: each key of each layer has an action of its own, in two and four bytes."""
    largest = LIMITS.keys * LIMITS.layers * (2 + 4) + 2 * LARGEST_CODE
    for name in builtin_names():
        profile = builtin_profile(name)
        family = FAMILIES.get(profile.port or "")
        if family and Budget.of(family, profile).flash * (1 - UNSURE) < largest:
            assert all(measured(profile.chip.lower(), kind) for kind in COMPILERS), name


def test_the_measured_compilers_are_those_of_this_machine():
    """Another version may make other sizes: then measure anew."""
    assert {one.title for one in all_measured()} == {
        find_compiler(kind, AVR).title for kind in COMPILERS
    }


def test_what_is_passed_over_as_small_is():
    for one in islice(random_keyboards(CONTROLLERS, "small"), 40):
        keys = len(one.keyboard.keys)
        cells = sum(len(layer.cells) for layer in one.keyboard.layers)
        most = LARGEST_CODE + keys * len(one.keyboard.layers) * 2 + cells * LARGEST_CELL
        for forecast in forecasts(one, COMPILERS):
            if not may_lack_room(one):
                assert all(need.has_room for need in forecast.needs)
            assert forecast.needs[0].takes <= most
            assert forecast.needs[1].takes <= LARGEST_VARIABLES + keys * LARGEST_KEY


def wide(layers: int, controller: str = "at90usb162") -> str:
    """Eighty keys, and so many layers: a key holds each, the others have presses of its own."""
    pins = [pin.name for pin in builtin_profile(controller).usable_pins if pin.use == "free"]
    keys = [[f"K{row * 10 + column}" for column in range(10)] for row in range(8)]
    flat = [key for row in keys for key in row]
    text = ['keyboard "Wide"', f"  controller {controller}", "  usb 1234:5678", "", "plate"]
    text += [f"  line {' '.join(row)}" for row in keys]
    text += ["", "wiring", "  drive rows, sense columns", "  diodes 1N4148, band toward rows"]
    text += [f"  row r{n} on {pins[n]}  {' '.join(row)}" for n, row in enumerate(keys)]
    columns = list(zip(*keys, strict=True))
    text += [f"  column c{n} on {pins[8 + n]}  {' '.join(one)}" for n, one in enumerate(columns)]
    presses, ways = cycle(PRESSES), flat[: layers - 1]
    text += ["", "layer base"]
    text += [f"  {key} = hold layer l{number}" for number, key in enumerate(ways, start=1)]
    for number in range(layers):
        text += ["", f"layer l{number}"] if number else []
        text += [f"  {key} = {next(presses)}" for key in flat[layers - 1 :]]
    return "\n".join(text) + "\n"


def with_texts(letters: int) -> str:
    """Thirteen keys with texts of so many letters each, on the smallest chip."""
    text = wide(1).replace("  usb 1234:5678", "  computer us\n  usb 1234:5678")
    for number in range(13):
        said = (f"{number}" + "so it goes " * letters)[:letters]
        text = re.sub(rf"^  K{number} = .*$", f'  K{number} = type "{said}"', text, flags=re.M)
    return text


def test_long_texts_find_no_room_on_an_at90usb162(program):
    """Some 13,000 strokes are twice the flash that the chip has."""
    assert foretold(with_texts(20)) == []
    assert foretold(with_texts(1000)) == ["image-without-room"]
    (mounted,) = examined(with_texts(1000)).mounted
    assert may_lack_room(mounted)
    ran = program("check", program.write("wide.keys", with_texts(1000)))
    assert ran.status == 1 and "about" in ran.out and "bytes of flash" in ran.out


def test_texts_alone_are_enough_to_look_for_room():
    """One key with one text: its cell is small, and what it types is not."""
    for controller, letters in (("at90usb162", 200), ("atmega32u4", 12_000)):
        text = wide(1, controller).replace("  usb", "  computer us\n  pace 1 ms\n  usb")
        said = ", then ".join([f'type "{"ab" * (min(letters, 1000) // 2)}"'] * -(-letters // 1000))
        text = re.sub(r"^  K1 = .*$", f"  K1 = {said}", text, flags=re.M)
        (mounted,) = examined(text).mounted
        assert may_lack_room(mounted)
        if letters > 1000:
            assert foretold(text) == ["image-without-room"]


def foretold(text: str) -> list[str]:
    found = examined(text).findings
    return [one.slug for one in found if one.slug in FORETOLD]


def test_eighty_keys_with_thirty_two_layers_find_no_room_on_an_at90usb162(program):
    """`check` says before a build what a build then says, by the compiler that it takes."""
    wanted = ["image-without-room", "image-near-limit"]
    slugs = {layers: foretold(wide(layers)) for layers in (1, 2, 8, 16, 32)}
    assert slugs[1] == [] and set(slugs[32]) <= set(wanted) and slugs[32]
    path = program.write("wide.keys", wide(32))
    ran = program("check", path)
    assert "about" in ran.out and "bytes of" in ran.out
    if "image-without-room" in slugs[32]:
        assert ran.status == 1
        ran = program("build", path)
        assert ran.status == 1
        assert "error[image-over-flash]" in ran.err or "error[variables-over-ram]" in ran.err
        assert "image-without-room" not in ran.err, "a build measures"


@pytest.mark.parametrize("memory", ["flash", "RAM"])
def test_near_the_limit_it_is_a_warning_and_beyond_an_error(memory):
    """A controller is given just so much memory; the finding turns at three hundredths."""
    (mounted,) = examined(wide(8, "atmega32u4")).mounted
    kind = "gcc"
    (forecast,) = forecasts(mounted, (kind,))
    place = 0 if memory == "flash" else 1
    takes = forecast.needs[place].takes
    seen = []
    for share in (1.05, 1.02, 0.99, 0.95):
        profile = mounted.profile
        room = round(takes * share)
        kept = profile.boot_loader_bytes if memory == "flash" else AVR.stack_bytes
        field = "flash_bytes" if memory == "flash" else "ram_bytes"
        small = changed(mounted, profile=changed(profile, **{field: room + kept}))
        seen.append([one.slug for one in room_findings(small)])
    assert seen == [[], ["image-near-limit"], ["image-near-limit"], ["image-without-room"]]


@pytest.mark.parametrize(("at_hand", "slugs"), [(("clang", "gcc"), 1), (("gcc",), 0), ((), 0)])
def test_it_is_for_the_compiler_that_a_build_takes_and_names_one_that_needs_less(
    at_hand, slugs, monkeypatch
):
    """Where Clang is taken, GCC's smaller image is a cure; without any, the smaller one counts."""
    monkeypatch.setattr("matrixgen.jobs.foretell.kinds_at_hand", lambda family: at_hand)
    (mounted,) = examined(wide(8, "atmega32u4")).mounted
    by_gcc, by_clang = forecasts(mounted, COMPILERS)
    least = by_gcc.needs[0].takes
    assert by_clang.needs[0].takes > 1.1 * least
    flash = round(least * 1.05) + mounted.profile.boot_loader_bytes
    found = list(
        room_findings(changed(mounted, profile=changed(mounted.profile, flash_bytes=flash)))
    )
    assert [one.slug for one in found] == ["image-without-room"] * slugs
    assert all(one.helps[0].startswith("avr-gcc 5") for one in found)


def test_a_use_that_is_measured_is_one_that_is_asked_for():
    (mounted, *_) = islice(random_keyboards(CONTROLLERS, "uses"), 1)
    view = firmware_view(mounted, "")
    asked = {name for name in code_uses(view) if not name.startswith("on ")}
    for row in all_measured():
        assert {name for name in row.flash if not name.startswith("on ")} <= asked
    assert table_bytes(view) > 0
