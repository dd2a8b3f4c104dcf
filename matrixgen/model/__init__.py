"""What a keyboard is. Imports nothing else of ours."""

from matrixgen.model.actions import (
    Action,
    HoldLayer,
    LatchLayer,
    Nothing,
    Press,
    StartBootLoader,
)
from matrixgen.model.diagnostic import Diagnostic, Note, Problem, Severity, in_file_order
from matrixgen.model.keyboard import (
    BASE,
    Assignment,
    Axis,
    BootLoader,
    DiodeRule,
    Identity,
    Key,
    Keyboard,
    Layer,
    Line,
    NamedAction,
    PlateLine,
    Wiring,
)
from matrixgen.model.matrix import Crossing, Matrix, matrix_of
from matrixgen.model.span import Number, SourceText, Span, Word
from matrixgen.model.variants import variants

__all__ = [
    "BASE",
    "Action",
    "Assignment",
    "Axis",
    "BootLoader",
    "Crossing",
    "Diagnostic",
    "DiodeRule",
    "HoldLayer",
    "Identity",
    "Key",
    "Keyboard",
    "LatchLayer",
    "Layer",
    "Line",
    "Matrix",
    "NamedAction",
    "Note",
    "Nothing",
    "Number",
    "PlateLine",
    "Press",
    "Problem",
    "Severity",
    "SourceText",
    "Span",
    "StartBootLoader",
    "Wiring",
    "Word",
    "in_file_order",
    "matrix_of",
    "variants",
]
