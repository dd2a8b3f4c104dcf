"""Controller profiles: what is known of each chip and board."""

from matrixgen.boards.load import builtin_names, builtin_profile, load_profile
from matrixgen.boards.mounted import Mounted, Wired
from matrixgen.boards.profile import Datasheet, Levels, Pin, Profile

__all__ = [
    "Datasheet",
    "Levels",
    "Mounted",
    "Pin",
    "Profile",
    "Wired",
    "builtin_names",
    "builtin_profile",
    "load_profile",
]
