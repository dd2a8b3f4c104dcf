"""The emulators' tests, run on an image with a mistake in its port.

A test asks a module for its image (`built`, or a name like that); here that name is given the image
with the mistake, and then the test and its fixture are called as pytest would.
"""

from __future__ import annotations

import inspect
from collections.abc import Callable, Iterator
from dataclasses import dataclass, field
from types import ModuleType, SimpleNamespace
from typing import Any

from matrixgen.emit.bench_tree import whole_bench_tree
from matrixgen.families import FAMILIES
from matrixgen.record import changed
from matrixgen.toolchain import CompileFailure, Compiler, Image, compile_tree, find_compiler
from tests.emulators import bench_on_chip, boot_loader_keys, test_bench, test_media, test_start
from tests.emulators import test_slow_matrix as slow
from tests.emulators.avr import (
    conftest,
    test_boot_loader,
    test_bus,
    test_disturbed_bus,
    test_enumeration,
    test_hid_requests,
    test_leavings,
    test_rc_type,
    test_setup_over,
    test_standard_requests,
)
from tests.emulators.avr.leavings import all_leavings
from tests.emulators.images import whole_tree_of
from tests.emulators.keyboards import profile, square
from tests.emulators.rp2040 import test_boot, test_clocks, test_switches, test_usb
from tests.emulators.rp2040 import test_boot_loader as test_boot_loader_rp2040
from tests.emulators.rp2040 import test_bus as test_bus_rp2040
from tests.emulators.rp2040 import test_leavings as test_leavings_rp2040
from tests.emulators.rp2040.builds import twice_to_boot_loader
from tests.mutants.changes import Mutant

Call = Callable[[Image], None]
Tree = dict[str, bytes]

WANTED = "as_the_revision_wants_it"
"""In the name of what is tried on a chip of an earlier revision, too."""

CHIPS = {"avr": "atmega32u4", "rp2040": "rp2040"}


@dataclass(frozen=True)
class Bench:
    """An image, and the calls that have to raise where it is wrong."""

    chip: str
    tree: Tree
    calls: list[Call] = field(default_factory=list)

    def built(self, mutant: Mutant | None) -> Image | None:
        """Return the image with a mutant in it; None if it is no C."""
        tree, name = dict(self.tree), ""
        if mutant is not None:
            name = f"port/{mutant.file.split('/')[-1]}"
            tree[name] = mutant.text.encode()
        family = FAMILIES[profile(self.chip).port or ""]
        compiler = find_compiler("gcc", family)
        assert compiler is not None
        image = compile_tree(tree, self.chip, _without_warnings(compiler))
        return None if isinstance(image, CompileFailure) else _with_checksum(image, name)


def _without_warnings(compiler: Compiler) -> Compiler:
    """Return a compiler that takes a mistake although it sees one: tests have to see it."""
    return changed(compiler, command=(*compiler.command, "-w"))


def _with_checksum(image: Image, changed: str) -> Image:
    """Let the boot ROM take a second stage that was changed, as whoever changes it would."""
    if changed != "port/boot2.c":
        return image
    sum_ = test_boot.crc32_mpeg2(image.flash[:252]).to_bytes(4, "little")
    return Image(image.family, image.elf, image.flash[:252] + sum_ + image.flash[256:], 0)


def benches(port: str) -> Iterator[Bench]:
    """Return what a port is tried with, the plain keyboard first."""
    return _avr() if port == "avr" else _rp2040()


# --- calling a test ------------------------------------------------------------------------------


def _words(test: Callable[..., None]) -> list[tuple[Any, ...]]:
    """Return what a test is called with after its fixture: each of what it is parametrized with."""
    found: list[tuple[Any, ...]] = [()]
    for mark in reversed(getattr(test, "pytestmark", [])):
        if mark.name == "parametrize":
            names, values = mark.args
            several = not isinstance(names, str) or "," in names
            found = [(*before, *(one if several else (one,))) for before in found for one in values]
    return found


def _tests(module: ModuleType, first: str, without: tuple[str, ...] = ()) -> Iterator[Call]:
    """Return the tests whose only fixture is `first`, each to be called with its rest of words."""
    for name, test in vars(module).items():
        fits = name.startswith("test_") and inspect.isfunction(test)
        if not fits or any(word in name for word in without):
            continue
        if next(iter(inspect.signature(test).parameters), "") == first:
            yield from (lambda given, t=test, w=w: t(given, *w) for w in _words(test))


def _with_fixture(
    places: list[tuple[ModuleType, str]],
    made: Callable[[Image], Any],
    fixture: Any,
    param: Any,
    tests: Iterator[Callable[[Any], None]],
) -> Iterator[Call]:
    raw = fixture._get_wrapped_function()

    def call(image: Image, test: Callable[[Any], None]) -> None:
        with _given(places, made(image)):
            running = raw(SimpleNamespace(param=param))
            test(next(running))
            next(running, None)

    return (lambda image, t=test: call(image, t) for test in tests)


class _given:
    """Modules whose names for an image are another one for a while."""

    def __init__(self, places: list[tuple[ModuleType, str]], value: Any) -> None:
        self.places, self.value = places, value

    def __enter__(self) -> None:
        self.kept = [getattr(module, name) for module, name in self.places]
        for module, name in self.places:
            setattr(module, name, lambda *_, **__: self.value)

    def __exit__(self, *_: object) -> None:
        for (module, name), kept in zip(self.places, self.kept, strict=True):
            setattr(module, name, kept)


def _plainly(places: list[tuple[ModuleType, str]], test: Callable[..., None], *words: Any) -> Call:
    def call(image: Image) -> None:
        with _given(places, image):
            test(*words)

    return call


# --- what is tried -------------------------------------------------------------------------------


def _avr() -> Iterator[Bench]:
    chip = CHIPS["avr"]
    plain = Bench(chip, whole_tree_of(square(2, controller=chip)))
    places = [(conftest, "built"), (test_leavings, "built"), (test_rc_type, "built")]
    places.append((test_bus, "built"))
    modules = (test_enumeration, test_bus, test_disturbed_bus, test_standard_requests)
    for module in (*modules, test_hid_requests, test_setup_over):
        found = _tests(module, "desk")
        plain.calls.extend(
            _with_fixture(places, lambda image: image, conftest.desk, (chip, "gcc"), found)
        )
    worked = test_leavings.test_the_keyboard_works_whatever_the_boot_loader_left
    plain.calls[1:1] = [_plainly(places, worked, chip, "gcc", all_leavings(chip))]
    plain.calls.extend(_plainly(places, worked, chip, "gcc", one) for one in _each_leaving(chip))
    rc = test_rc_type
    plain.calls.extend(
        [
            _plainly(
                places,
                rc.test_a_chip_of_the_rc_type_runs_from_the_crystal_before_it_attaches,
                "gcc",
            ),
            _plainly(
                places, rc.test_a_crystal_that_never_starts_is_waited_for_by_a_chip_that_starts_anew
            ),
            _plainly(places, test_bus.test_a_minute_of_naps_counts_as_a_minute, chip),
        ]
    )
    yield plain
    yield _media(chip)
    yield _serial(chip)
    yield _loader_avr(chip)
    yield _slow(chip)
    yield _starting(chip)


def _each_leaving(chip: str) -> list[dict[int, int]]:
    """Return what a boot loader may leave, thing by thing."""
    return [{}, *test_leavings.leavings_of(chip).values()]


def _of_fixture(
    chip: str,
    tree: Tree,
    module: ModuleType,
    fixture: str,
    param: Any,
    asked: str = "built",
    made: Callable[[Image], Any] = lambda image: image,
) -> Bench:
    """Return an image with all tests of a module that have its fixture."""
    tests = _tests(module, fixture)
    calls = _with_fixture([(module, asked)], made, getattr(module, fixture), param, tests)
    return Bench(chip, tree, list(calls))


def _media(chip: str) -> Bench:
    mounted = test_media.with_media_keys(square(2, controller=chip), test_media.KEYS)
    tree, param = whole_tree_of(mounted), (chip, "gcc")
    return _of_fixture(chip, tree, test_media, "desk", param, made=lambda image: (mounted, image))


def _serial(chip: str) -> Bench:
    tree = dict(whole_bench_tree(bench_on_chip.view_of(chip)))
    return _of_fixture(chip, tree, test_bench, "desk", (chip, "gcc"))


def _loader_avr(chip: str) -> Bench:
    tree = whole_tree_of(boot_loader_keys.keyboard(chip))
    return _of_fixture(chip, tree, test_boot_loader, "bench", (chip, "gcc"))


def _slow(chip: str) -> Bench:
    test = slow.test_every_millisecond_of_a_long_turn_counts
    call = _plainly([(slow, "image_of")], test, chip)
    return Bench(chip, whole_tree_of(slow.slow(chip)), [call])


def _starting(chip: str) -> Bench:
    test = test_start.test_variables_have_their_values_and_what_is_behind_them_is_left_alone
    call = _plainly([(test_start, "built")], test, chip, "gcc")
    return Bench(chip, test_start.program_for(chip), [call])


def _rp2040() -> Iterator[Bench]:
    chip = CHIPS["rp2040"]
    plain = Bench(chip, whole_tree_of(square(2, controller=chip)))
    modules = (test_boot, test_clocks, test_usb, test_switches, test_leavings_rp2040)
    places = [(module, "built") for module in modules]

    def desks(module: ModuleType, *without: str) -> list[Call]:
        found = _tests(module, "desk", without)
        return list(_with_fixture(places, lambda image: image, test_usb.desk, "gcc", found))

    first = [
        test_boot.test_the_boot_rom_starts_the_keyboard,
        test_boot.test_the_plls_make_125_and_48_mhz_within_their_limits,
        test_boot.test_every_clock_that_is_used_comes_from_the_crystal,
        test_switches.test_every_line_and_every_free_pin_is_pulled_up_and_no_other,
        test_clocks.test_the_keyboard_attaches_within_100_ms_though_it_waits_64_for_the_crystal,
        test_clocks.test_a_crystal_that_needs_all_of_the_64_ms_is_not_used_before,
        test_clocks.test_a_pll_that_does_not_lock_after_a_nap_restarts_the_chip,
    ]
    plain.calls.extend([_plainly(places, test) for test in first])
    left = test_leavings_rp2040.test_the_keyboard_works_whatever_another_program_left
    plain.calls.append(_plainly(places, left, "gcc"))
    plain.calls.extend(
        desks(test_bus_rp2040, "at_any_moment", "clocks_of", "clock_the", "clock_too")
    )
    shared = vars(test_enumeration).keys() | vars(test_hid_requests).keys()
    plain.calls.extend(desks(test_usb, *(name for name in shared if name.startswith("test_"))))
    plain.calls.extend(
        _with_fixture(
            places,
            lambda image: image,
            test_usb.desk,
            "clang",
            _tests(test_usb, "desk", tuple(name for name in vars(test_usb) if WANTED not in name)),
        )
    )
    dead = test_clocks.test_a_pll_that_does_not_lock_restarts_the_chip_until_it_does
    crystal = test_clocks.test_a_crystal_that_does_not_start_restarts_the_chip_until_it_does
    plain.calls.extend([_plainly(places, dead, name) for name in test_clocks.PLLS])
    plain.calls.extend([_plainly(places, crystal, test_clocks.RING_HZ[1])])
    yield plain
    yield _media(chip)
    yield _serial(chip)
    yield _loader_rp2040(chip)
    yield _double_reset(chip)
    yield _slow(chip)
    yield _starting(chip)


def _loader_rp2040(chip: str) -> Bench:
    tree = whole_tree_of(boot_loader_keys.keyboard(chip))
    return _of_fixture(chip, tree, test_boot_loader_rp2040, "chip", "gcc", "asked_for")


def _double_reset(chip: str) -> Bench:
    bench = Bench(chip, whole_tree_of(twice_to_boot_loader(square(2, controller=chip))))
    places = [(test_boot, "compiled")]
    twice = test_boot.test_two_presses_of_reset_within_half_a_second_start_the_drive
    fails = test_boot.test_a_supply_that_fails_twice_is_no_press_though_ram_keeps_the_mark
    bench.calls.extend(
        [
            _plainly(places, twice, "gcc"),
            _plainly(places, fails, "gcc"),
            _plainly(
                places, test_boot.test_two_presses_of_reset_with_a_pause_between_start_the_keyboard
            ),
            _plainly(
                places, test_boot.test_a_press_a_moment_after_the_supply_failed_is_the_second_one
            ),
            _plainly(places, test_boot.test_a_start_by_the_watchdog_is_no_press),
        ]
    )
    return bench
