"""From a checked keyboard on one controller to every file of its output folder."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Mounted
from matrixgen.emit.firmware_tree import firmware_tree
from matrixgen.emit.firmware_view import firmware_view
from matrixgen.emit.loading_words import loading
from matrixgen.emit.manifest import ImageSummary, manifest
from matrixgen.emit.output_folder import MARK
from matrixgen.emit.pin_table import PinTable, comma_separated, markdown, pin_table
from matrixgen.families import FAMILIES
from matrixgen.jobs.examine import without_firmware
from matrixgen.jobs.images import Wanted, compiled, compiler_for, image_files
from matrixgen.jobs.sheet import PAGE, bench_sheet
from matrixgen.model import Diagnostic, SourceText
from matrixgen.record import Record
from matrixgen.toolchain import Image


class Built(Record):
    """What a build made: all files of the folder, and what to tell of them.

    `files` is empty where `findings` holds an error. `image` is None where sources alone are
    wanted.
    """

    table: PinTable
    files: Mapping[str, bytes]
    image: ImageSummary | None = None
    findings: tuple[Diagnostic, ...] = ()


def build_mounted(
    mounted: Mounted, source: SourceText, name: str, wanted: Wanted, *, with_sheet: bool = True
) -> Built:
    """Return the files for a keyboard that the rules have passed; images are called `name`.

    Raises `CompilerMissing`, `CompilerRefused` where the compiler fails, which is no mistake of the
    user's, and `OSError` where it can't be started.
    """
    table = pin_table(mounted)
    family = FAMILIES.get(mounted.profile.port or "")
    if family is None:
        return Built(table, {}, None, (without_firmware(mounted),))
    view = firmware_view(mounted, source.path)
    tree = firmware_tree(view)
    files = {f"firmware/{path}": content for path, content in tree.items()}
    files["pins.md"] = markdown(table, loading(mounted.profile, source.path, name)).encode()
    files["pins.csv"] = comma_separated(table).encode()
    if with_sheet:
        files[PAGE] = bench_sheet(mounted, source, compiles=wanted != "none")
    summary = None
    compiler = compiler_for(family, wanted)
    if compiler:
        image = compiled(tree, mounted, compiler)
        if not isinstance(image, Image):
            return Built(table, {}, None, image)
        images, summary = image_files(image, name, compiler, mounted.profile)
        files |= images
    files[MARK] = manifest(source, table, view, summary, files)
    return Built(table, files, summary)
