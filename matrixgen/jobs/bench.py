"""From a controller to every file of its bench's folder: an image that tells which pins meet."""

from __future__ import annotations

from collections.abc import Mapping

from matrixgen.boards import Profile
from matrixgen.emit.bench_tree import PAGE, bench_page, bench_tree
from matrixgen.emit.bench_view import bench_view
from matrixgen.emit.manifest import ImageSummary, bench_manifest
from matrixgen.emit.output_folder import MARK
from matrixgen.failure import Failure
from matrixgen.families import FAMILIES
from matrixgen.jobs.examine import no_firmware
from matrixgen.jobs.images import Wanted, compiler_for, fitted, image_files
from matrixgen.record import Record
from matrixgen.toolchain import Image


class BenchBuild(Record, kw_only=True):
    """What a build of a bench made: all files of its folder, and what to tell of them.

    `image` is None where sources alone are wanted. `pins` is how many it looks at.
    """

    files: Mapping[str, bytes]
    pins: int
    image: ImageSummary | None


def build_bench(
    profile: Profile, name: str, wanted: Wanted, left_alone: frozenset[str] = frozenset()
) -> BenchBuild:
    """Return the files of a controller's bench; images are called `name`.

    `left_alone` are pins with a light on them.

    Raises `Failure` where there can be no bench, `CompilerRefused` where the compiler fails, which
    is no mistake of the user's, and `OSError` where it can't be started.
    """
    family = FAMILIES.get(profile.port or "")
    if family is None:
        raise Failure(*no_firmware(profile))
    compiler = compiler_for(family, wanted)
    view = bench_view(profile, family, left_alone=left_alone)
    tree = bench_tree(view)
    files = {f"firmware/{path}": content for path, content in tree.items()}
    files[PAGE] = bench_page()
    summary = None
    if compiler:
        image = fitted(tree, profile, compiler)
        if not isinstance(image, Image):
            raise Failure(
                f"the bench firmware needs more {image[0][0]} than `{profile.name}` has for it",
                "`matrixgen boards NAME` shows how much a controller has",
            )
        images, summary = image_files(image, name, compiler, profile)
        files |= images
    files[MARK] = bench_manifest(view, summary, files)
    return BenchBuild(files=files, pins=len(view.drives), image=summary)
