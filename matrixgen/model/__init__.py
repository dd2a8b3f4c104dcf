"""What a keyboard is. Imports nothing else of ours but the words for usages."""

from matrixgen.model.actions import (
    BEHAVIOURS,
    Action,
    Behaviour,
    HoldLayer,
    LatchLayer,
    LayerTurn,
    Nothing,
    Press,
    StartBootLoader,
    layer_turns,
    sent_usages,
    starts_boot_loader,
)
from matrixgen.model.contact import Contact, Diode, Matrix, common_diode, matrix_of
from matrixgen.model.design import Allowance, Design, Mounting
from matrixgen.model.diagnostic import Diagnostic, Fix, Note, Problem, Severity, in_file_order
from matrixgen.model.keyboard import BootLoader, Identity, Keyboard
from matrixgen.model.layers import BASE, Cell, Layer, NamedAction
from matrixgen.model.plate import Cluster, Key, Mirror, Plate, PlateLine
from matrixgen.model.text import Edit, Number, SourceText, Span, Word
from matrixgen.model.wiring import AXES, Axis, DiodeRule, Line, Wiring, other_axis

__all__ = [
    "AXES",
    "BASE",
    "BEHAVIOURS",
    "Action",
    "Allowance",
    "Axis",
    "Behaviour",
    "BootLoader",
    "Cell",
    "Cluster",
    "Contact",
    "Design",
    "Diagnostic",
    "Diode",
    "DiodeRule",
    "Edit",
    "Fix",
    "HoldLayer",
    "Identity",
    "Key",
    "Keyboard",
    "LatchLayer",
    "Layer",
    "LayerTurn",
    "Line",
    "Matrix",
    "Mirror",
    "Mounting",
    "NamedAction",
    "Note",
    "Nothing",
    "Number",
    "Plate",
    "PlateLine",
    "Press",
    "Problem",
    "Severity",
    "SourceText",
    "Span",
    "StartBootLoader",
    "Wiring",
    "Word",
    "common_diode",
    "in_file_order",
    "layer_turns",
    "matrix_of",
    "other_axis",
    "sent_usages",
    "starts_boot_loader",
]
