"""Controller profiles: what is known of each chip and board."""

from matrixgen.boards.around import Around, BootLoaderEntry
from matrixgen.boards.builtin import builtin_names
from matrixgen.boards.diode_part import DiodePart, ForwardDrop, ForwardPoint, diode_name
from matrixgen.boards.diodes import USUAL_DIODE, builtin_diodes, load_diode, usual_diode
from matrixgen.boards.edge import Edge
from matrixgen.boards.load import builtin_profile, load_named, load_profile
from matrixgen.boards.mounted import Mounted, Wired
from matrixgen.boards.own_json import Committed
from matrixgen.boards.paths import is_path
from matrixgen.boards.pin import Pin, PullUp, Thresholds
from matrixgen.boards.pin_words import word_for
from matrixgen.boards.profile import Datasheet, Profile, Speech

__all__ = [
    "USUAL_DIODE",
    "Around",
    "BootLoaderEntry",
    "Committed",
    "Datasheet",
    "DiodePart",
    "Edge",
    "ForwardDrop",
    "ForwardPoint",
    "Mounted",
    "Pin",
    "Profile",
    "PullUp",
    "Speech",
    "Thresholds",
    "Wired",
    "builtin_diodes",
    "builtin_names",
    "builtin_profile",
    "diode_name",
    "is_path",
    "load_diode",
    "load_named",
    "load_profile",
    "usual_diode",
    "word_for",
]
