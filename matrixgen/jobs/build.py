"""From a checked keyboard to every file of its output folder."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from matrixgen.boards import Profile
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.manifest import ImageFacts, manifest
from matrixgen.emit.output_folder import MARK
from matrixgen.emit.pin_table import PinTable, comma_separated, markdown, pin_table
from matrixgen.emit.render import firmware_tree
from matrixgen.jobs.images import (
    Wanted,
    compiled,
    compiler_for,
    image_facts,
    image_files,
)
from matrixgen.model import Diagnostic, Keyboard
from matrixgen.toolchain import FAMILIES, Image
from matrixgen.toolchain.problems import controller_without_firmware


@dataclass(frozen=True, slots=True)
class Built:
    """What a build made: all files of the folder, and what to tell of them.

    `files` is empty where `findings` holds an error. `image` is None where there was no compiler.
    """

    table: PinTable
    files: Mapping[str, bytes]
    image: ImageFacts | None = None
    findings: tuple[Diagnostic, ...] = ()


def build_keyboard(keyboard: Keyboard, profile: Profile, name: str, wanted: Wanted) -> Built:
    """Return the files for a keyboard that the rules have passed; images are called `name`.

    Without a compiler there is no image. Raises `CompilerMissing` where the wanted one is not
    there, `CompilerRefused` where it fails, and `OSError` where it can't be started.
    """
    table = pin_table(keyboard, profile)
    family = FAMILIES.get(profile.port or "")
    if family is None:
        return Built(table, {}, None, (_no_firmware(keyboard, profile),))
    view = firmware_view(keyboard, profile)
    tree = firmware_tree(view)
    files = {f"firmware/{path}": content for path, content in tree.items()}
    files["pins.md"] = markdown(table).encode()
    files["pins.csv"] = comma_separated(table).encode()
    facts = None
    if compiler := compiler_for(family, wanted):
        image = compiled(tree, keyboard, profile, compiler)
        if not isinstance(image, Image):
            return Built(table, {}, None, image)
        images = image_files(image, name)
        facts = image_facts(image, tuple(images), compiler, profile)
        files |= images
    files[MARK] = manifest(table, view, facts, files)
    return Built(table, files, facts)


def _no_firmware(keyboard: Keyboard, profile: Profile) -> Diagnostic:
    return controller_without_firmware.PROBLEM.at(
        keyboard.controller.span,
        f"only the pins of `{profile.name}` are known, and there is no firmware for its chip yet",
        help="`matrixgen boards` says which controllers have firmware",
    )
