"""Small keyboards of behaviours whose large ones take Eva too long."""

from __future__ import annotations

from matrixgen.model import Keyboard
from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    LatchLayer,
    Media,
    OnceLayer,
    OnceModifiers,
    Press,
    TapHold,
    UnlatchLayers,
)
from tests.firmware.build_model import keyboard
from tests.firmware.pads import DELETE, LEFT_CTRL, LEFT_SHIFT, pointer_key


def few_timed_pad() -> Keyboard:
    """Ten keys: of each kind of `timed_pad` one or two, and a tap and a hold in two ways."""
    base: dict[str, Action] = {
        "A": TapHold(Press(0x04), HoldLayer("more"), other_hand=True),
        "S": TapHold(Press(0x16), Press(0, LEFT_CTRL), decided_by="press", roll_ms=0),
        "Once": OnceModifiers(LEFT_SHIFT),
        "Two": FirstSecond(Press(0x14), Press(0, LEFT_CTRL), within_ms=150),
        "Del": DELETE,
        "M": Media(0x0C, 0xE9),
        "B": Press(0x05),
        "Shift": Press(0, LEFT_SHIFT),
        "Sym": LatchLayer("more"),
        "Base": ChangeBase("other"),
    }
    more: dict[str, Action] = {"B": OnceLayer("more"), "M": UnlatchLayers()}
    other: dict[str, Action] = {"Base": ChangeBase("base")}
    stack = {"base": base, "more": more, "other": other}
    return keyboard([[*base]], stack, once_ms=700, press_ms=2)


def few_pointer_pad() -> Keyboard:
    """Eight keys: a pointer and a wheel both ways, buttons, a layer; none that knows time."""
    words = ("PointerLeft", "PointerDown", "WheelUp", "WheelRight", "Button1")
    base: dict[str, Action] = {word: pointer_key(word) for word in words}
    base |= {
        "A": Press(0x04),
        "Shift": Press(0, LEFT_SHIFT),
        "Sym": HoldLayer("more"),
    }
    return keyboard([[*base]], {"base": base, "more": {"A": pointer_key("Button3")}})


def timed_pointer_pad() -> Keyboard:
    """Seven keys: a pointer, a wheel, a button, and what a tap and a hold of them can be."""
    base: dict[str, Action] = {
        "A": TapHold(Press(0x04), pointer_key("PointerRight"), decided_by="press"),
        "S": TapHold(pointer_key("Button2"), HoldLayer("more"), decided_by="time"),
        **{word: pointer_key(word) for word in ("PointerLeft", "PointerDown", "WheelUp")},
        "Button1": pointer_key("Button1"),
        "B": Press(0x05),
    }
    return keyboard([[*base]], {"base": base, "more": {"B": pointer_key("PointerUp")}})
