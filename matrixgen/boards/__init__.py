"""Controller profiles: what is known of each chip and board."""

from matrixgen.boards.around import Around, BootLoaderEntry
from matrixgen.boards.builtin import builtin_names
from matrixgen.boards.diode_part import DiodePart, diode_name
from matrixgen.boards.diodes import USUAL_DIODE, builtin_diodes, load_diode, usual_diode
from matrixgen.boards.edge import Edge
from matrixgen.boards.load import builtin_profile, load_named, load_profile
from matrixgen.boards.mounted import Mounted
from matrixgen.boards.own_json import Committed
from matrixgen.boards.paths import is_path
from matrixgen.boards.pin import Pin, PullUp
from matrixgen.boards.pin_words import word_for
from matrixgen.boards.profile import Datasheet, Profile
