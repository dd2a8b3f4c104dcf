"""What a keyboard is. Imports nothing else of ours but the words for usages."""

from matrixgen.model.actions import (
    Action,
    Behaviour,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    Instead,
    InTurn,
    LatchLayer,
    LayerTurn,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pause,
    Pointer,
    Press,
    StartBootLoader,
    TapHold,
    Typed,
    WithModifier,
    layer_turns,
    sent_usages,
    starts_boot_loader,
    with_parts,
)
from matrixgen.model.component import PINS_OF, Component, ComponentPlace
from matrixgen.model.contact import (
    Contact,
    Diode,
    Matrix,
    common_diode,
    matrix_of,
    turned_right,
    with_diodes,
)
from matrixgen.model.design import Allowance, Design, Mounting
from matrixgen.model.diagnostic import Diagnostic, Fix, Note, Problem, Severity, in_file_order
from matrixgen.model.keyboard import BootLoader, Identity, Keyboard
from matrixgen.model.knob import Knob
from matrixgen.model.layers import BASE, Cell, Layer, NamedAction, Together
from matrixgen.model.light import LOCKS, Light
from matrixgen.model.plate import (
    Area,
    Cluster,
    ControllerPlace,
    Hole,
    Key,
    Plate,
    PlateLine,
)
from matrixgen.model.text import Edit, Number, SourceText, Span, Word
from matrixgen.model.wiring import AXES, Axis, DiodeRule, Line, Wiring, other_axis
