"""From a checked keyboard to every file of its output folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from matrixgen.boards import Profile
from matrixgen.emit.firmware_view import FirmwareView, firmware_view
from matrixgen.emit.manifest import ImageFacts, manifest
from matrixgen.emit.output_folder import MARK
from matrixgen.emit.pin_table import PinTable, comma_separated, markdown, pin_table
from matrixgen.emit.render import firmware_tree
from matrixgen.model import Diagnostic, Keyboard, Note
from matrixgen.toolchain import Budget, BuildFailure, Compiler, Image, build, overruns, to_hex
from matrixgen.toolchain.problems import (
    controller_without_firmware,
    image_over_flash,
    variables_over_ram,
)

OVERRUN_PROBLEMS = {"flash": image_over_flash.PROBLEM, "RAM": variables_over_ram.PROBLEM}


class CompilerRefused(Exception):
    """The compiler would not have a firmware that we wrote: a mistake of ours, or of its own."""

    def __init__(self, failure: BuildFailure) -> None:
        super().__init__(failure.compiler.title)
        self.failure = failure


@dataclass(frozen=True, slots=True)
class Built:
    """What a build made: all files of the folder, and what to tell of them.

    `files` is empty where `findings` holds an error. `image` is None where there was no compiler.
    """

    files: Mapping[str, bytes]
    table: PinTable | None
    image: ImageFacts | None
    findings: tuple[Diagnostic, ...] = ()


def build_keyboard(
    keyboard: Keyboard, profile: Profile, name: str, compiler: Compiler | None
) -> Built:
    """Return the files for a keyboard that the rules have passed; the image is `<name>.hex`.

    Without a compiler there is no image. Raises `CompilerRefused` where the compiler fails, and
    `OSError` where it can't be started.
    """
    if profile.port is None:
        return Built({}, None, None, (_no_firmware(keyboard, profile),))
    view = firmware_view(keyboard, profile)
    tree = firmware_tree(view)
    image = _compiled(tree, view, compiler) if compiler else None
    if image and (findings := _overruns(image, keyboard, profile)):
        return Built({}, None, None, findings)
    facts = _facts(image, f"{name}.hex", compiler, profile) if image and compiler else None
    return _built(keyboard, view, tree, image, facts)


def _built(
    keyboard: Keyboard,
    view: FirmwareView,
    tree: Mapping[str, bytes],
    image: Image | None,
    facts: ImageFacts | None,
) -> Built:
    table = pin_table(keyboard, view.profile)
    files = {f"firmware/{path}": content for path, content in tree.items()}
    files["pins.md"] = markdown(table).encode()
    files["pins.csv"] = comma_separated(table).encode()
    if image and facts:
        files[facts.file] = to_hex(image).encode()
    files[MARK] = manifest(table, view, facts, files)
    return Built(files, table, facts)


def _compiled(tree: Mapping[str, bytes], view: FirmwareView, compiler: Compiler) -> Image:
    made = build(tree, view.chip, compiler)
    if isinstance(made, BuildFailure):
        raise CompilerRefused(made)
    return made


def _no_firmware(keyboard: Keyboard, profile: Profile) -> Diagnostic:
    return controller_without_firmware.PROBLEM.at(
        keyboard.controller.span,
        f"only the pins of `{profile.name}` are known, and there is no firmware for its chip yet",
        help="`matrixgen boards` says which controllers have firmware",
    )


def _overruns(image: Image, keyboard: Keyboard, profile: Profile) -> tuple[Diagnostic, ...]:
    return tuple(
        OVERRUN_PROBLEMS[over.memory].at(
            keyboard.controller.span,
            f"the firmware needs {over.used:,} bytes of {over.memory}, "
            f"and `{profile.name}` has {over.available:,} for it",
            notes=[Note(f"{len(keyboard.keys)} keys, {len(keyboard.layers)} layers")],
        )
        for over in overruns(image, _budget(profile))
    )


def _budget(profile: Profile) -> Budget:
    return Budget.of(profile.flash_bytes, profile.boot_loader_bytes, profile.ram_bytes)


def _facts(image: Image, file: str, compiler: Compiler, profile: Profile) -> ImageFacts:
    budget = _budget(profile)
    return ImageFacts(
        file, compiler.title, image.flash_used, budget.flash, image.ram_used, budget.ram
    )
