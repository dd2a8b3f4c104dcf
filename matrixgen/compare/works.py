"""Which work a change of a fact asks for: what stands at the field of the model that it is of."""

from __future__ import annotations

from matrixgen.compare.facts import FactPath
from matrixgen.model import (
    BootLoader,
    Cell,
    ComponentPlace,
    Design,
    DiodeRule,
    Identity,
    Key,
    Keyboard,
    Knob,
    Layer,
    Light,
    Line,
    NamedAction,
    Plate,
    PlateLine,
    Wiring,
)
from matrixgen.model.work import Work, fields_of, work_of

RECORDS: dict[str, tuple[type, ...]] = {
    "keyboard": (Identity, Keyboard),
    "boot loader": (BootLoader,),
    "wiring": (Wiring,),
    "on plate": (Plate,),
    "wire": (Line,),
    "layer": (Layer,),
    "light": (Light,),
    "knob": (Knob,),
}
"""The records whose fields are facts of a kind, under their own names."""

FIELDS: dict[str, tuple[type, str]] = {
    "controllers": (Design, "controllers"),
    "allowed": (Design, "allowances"),
    "pin": (Design, "pins"),
    "plate": (PlateLine, "keys"),
    "clusters": (Plate, "clusters"),
    "key": (Key, "x"),
    "hand": (PlateLine, "keys"),
    "without_diode": (Wiring, "without_diode"),
    "reversed": (Wiring, "reversed"),
    "without_stabiliser": (Plate, "without_stabiliser"),
    "lines": (Wiring, "lines"),
    "line": (Line, "axis"),
    "visits": (Line, "visits"),
    "action": (NamedAction, "action"),
    "layers": (Keyboard, "layers"),
    "cell": (Cell, "action"),
    "component": (ComponentPlace, "kind"),
    "component pin": (Design, "component_pins"),
    "component place": (ComponentPlace, "x"),
    "first pin": (Knob, "states"),
    "together": (Layer, "together"),
}
"""The field that another kind of fact is of."""


def work_of_fact(path: FactPath) -> Work:
    """Return the work that a change of a fact asks for, taken by itself."""
    if path[0] == "idle":
        return "cosmetic"
    if path == ("wiring", "diodes"):
        return work_of(DiodeRule, "part")
    if path[0] in RECORDS:
        field = path[-1]
        (record,) = (one for one in RECORDS[path[0]] if field in {f.name for f in fields_of(one)})
        return work_of(record, field)
    return work_of(*FIELDS[path[0]])
