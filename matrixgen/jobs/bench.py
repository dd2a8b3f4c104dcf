"""From a controller to every file of its bench's folder: an image that tells which pins meet."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Profile
from matrixgen.emit.bench_manifest import bench_manifest
from matrixgen.emit.bench_tree import PAGE, bench_page, bench_tree
from matrixgen.emit.bench_view import bench_view
from matrixgen.emit.manifest import ImageSummary
from matrixgen.emit.output_folder import MARK
from matrixgen.families import FAMILIES
from matrixgen.jobs.examine import no_firmware
from matrixgen.jobs.images import CompilerMissing, Wanted, compiler_for, fitted, image_files
from matrixgen.record import Record
from matrixgen.toolchain import Image, Memory


class Refusal(Record):
    """Why there is no image of a bench, and what to do about it."""

    text: str
    help: str


class BenchBuild(Record, kw_only=True):
    """What a build of a bench made: all files of its folder, and what to tell of them.

    `files` is empty where `refusal` says why there is nothing. `image` is None where sources alone
    are wanted. `pins` is how many it looks at.
    """

    files: Mapping[str, bytes]
    pins: int = 0
    image: ImageSummary | None = None
    refusal: Refusal | CompilerMissing | None = None


def build_bench(
    profile: Profile, name: str, wanted: Wanted, left_alone: frozenset[str] = frozenset()
) -> BenchBuild:
    """Return the files of a controller's bench; images are called `name`.

    `left_alone` are pins with a light on them.

    Raises `CompilerRefused` where the compiler fails, which is no mistake of the user's, and
    `OSError` where it can't be started.
    """
    family = FAMILIES.get(profile.port or "")
    if family is None:
        return BenchBuild(files={}, refusal=Refusal(*no_firmware(profile)))
    compiler = compiler_for(family, wanted)
    if isinstance(compiler, CompilerMissing):
        return BenchBuild(files={}, refusal=compiler)
    view = bench_view(profile, family, left_alone=left_alone)
    tree = bench_tree(view)
    files = {f"firmware/{path}": content for path, content in tree.items()}
    files[PAGE] = bench_page()
    summary = None
    if compiler:
        image = fitted(tree, profile, compiler)
        if not isinstance(image, Image):
            return BenchBuild(files={}, refusal=_too_big(profile, image[0][0]))
        images, summary = image_files(image, name, compiler, profile)
        files |= images
    files[MARK] = bench_manifest(view, summary, files)
    return BenchBuild(files=files, pins=len(view.drives), image=summary)


def _too_big(profile: Profile, memory: Memory) -> Refusal:
    return Refusal(
        f"the bench firmware needs more {memory} than `{profile.name}` has for it",
        "`matrixgen boards NAME` shows how much a controller has",
    )
