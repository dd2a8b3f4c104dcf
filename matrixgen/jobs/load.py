"""From a checked keyboard, or an image that was built before, into a board."""

from __future__ import annotations

from pathlib import Path

from matrixgen.boards import Mounted, Profile, load_named
from matrixgen.failure import Failure
from matrixgen.families import Family
from matrixgen.jobs.build import Built, build_mounted
from matrixgen.load.by_drive import DriveJob, load_by_drive
from matrixgen.load.by_serial import load_by_serial
from matrixgen.load.flashing import FlashJob
from matrixgen.load.image_file import controller_of, flash_of_hex, read_bytes
from matrixgen.load.talk import Talk
from matrixgen.model import SourceText
from matrixgen.record import Record

USUAL_FOR_UF2 = "rp2040"
"""The controller of a UF2 file that nothing else is said of: the only family with a number."""


class ImageToLoad(Record, kw_only=True):
    """An image to load: its file's name and bytes, and the controller that it is for."""

    name: str
    data: bytes
    profile: Profile

    @property
    def is_uf2(self) -> bool:
        """Whether it goes onto a drive."""
        return self.name.lower().endswith(".uf2")


class BoardPlace(Record):
    """Where the maker says that the board is: a serial port, a drive, or neither."""

    port: str | None = None
    drive: str | None = None


def built_image(mounted: Mounted, source: SourceText, name: str) -> ImageToLoad | Built:
    """Return the image of a keyboard that the rules have passed, or the build that has none.

    Raises as `build_mounted` does.
    """
    built = build_mounted(mounted, source, name, None, with_sheet=False)
    if built.image is None:
        return built
    first = built.image.files[0]
    return ImageToLoad(name=first, data=built.files[first], profile=mounted.profile)


def image_of_file(path: str, controller: str | None) -> ImageToLoad:
    """Return the image in a file, for the controller that is named or that its build was for.

    Raises `Failure` where the file cannot be read or it is not known what it is for.
    """
    place = Path(path)
    data = read_bytes(place)
    usual = USUAL_FOR_UF2 if path.lower().endswith(".uf2") else None
    wanted = controller or controller_of(place, data) or usual
    if wanted is None:
        raise Failure(
            f"it is not known for which controller `{path}` was built",
            "name it with --controller NAME",
        )
    profile, findings = load_named(wanted)
    if profile is None:
        raise Failure(findings[0].message, *findings[0].helps)
    return ImageToLoad(name=place.name, data=data, profile=profile)


def speaks_to_hand(image: ImageToLoad, way: BoardPlace) -> bool:
    """Whether the maker has to load an image with another program: the factory's boot loaders."""
    return image.profile.boot_loader_speaks == "DFU" and way.port is None


def load(talk: Talk, image: ImageToLoad, way: BoardPlace) -> None:
    """Load an image; raises `Failure` where that does not come about."""
    profile, family = image.profile, _family(image.profile)
    _refuse_wrong_way(image, way)
    if image.is_uf2:
        job = DriveJob(image.data, image.name, family, profile.flash_bytes)
        load_by_drive(talk, job, way.drive)
        return
    flash = family.flash_of(profile.chip)
    if flash is None:
        raise Failure(
            f"`{profile.name}` takes an image as `.{family.images[0]}`, not as `{image.name}`"
        )
    content = flash_of_hex(image.data, profile.room_bytes)
    load_by_serial(talk, FlashJob(content, flash, profile.room_bytes), way.port)


def _family(profile: Profile) -> Family:
    if profile.port is None or profile.family_record is None:
        raise Failure(f"only the pins of `{profile.name}` are known, and not how it is loaded")
    return profile.family_record


def _refuse_wrong_way(image: ImageToLoad, way: BoardPlace) -> None:
    """Refuse a port for what goes onto a drive and the other way round, and what is not known."""
    name = image.profile.name
    if image.is_uf2 and way.port:
        raise Failure(f"`{name}` is loaded by its drive, not by a port", "leave out --port")
    if not image.is_uf2 and way.drive:
        raise Failure(f"`{name}` is loaded by a port, not by a drive", "leave out --mount")
    if image.profile.boot_loader_speaks is None and not (way.port or way.drive):
        raise Failure(
            f"it is not known how the boot loader of `{name}` takes an image",
            "use the program that its maker names, or --port PORT if it speaks AVR109",
        )
