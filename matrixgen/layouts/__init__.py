"""What a computer makes of keys: signs and dead keys of each layout, and how a sign is typed.

The data are `grammar/layouts/*.json`; its README.md says where they come from.
"""

from matrixgen.layouts.differing import SignOnSystems, differing_signs
from matrixgen.layouts.files import layout_language, layout_names
from matrixgen.layouts.host_layout import HostLayout, layout_named
from matrixgen.layouts.key_words import KeyWords
from matrixgen.layouts.nearest import nearest_layouts
from matrixgen.layouts.strokes import SYSTEMS, System
from matrixgen.usages.key_stroke import KeyStroke
