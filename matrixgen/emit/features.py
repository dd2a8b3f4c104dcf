"""Which parts of the firmware a keyboard has: the names that conditions in its C ask for."""

from __future__ import annotations

from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from matrixgen.emit.firmware_view import FirmwareView

_KIND = "ACTION_"


def features_of(view: FirmwareView) -> tuple[str, ...]:
    """Return the names, in alphabetical order; one that is not among them stands for nothing.

    Each kind of action that the table has gives one, as `HAS_PRESS`.
    """
    kinds = {f"HAS_{action.row.kind.removeprefix(_KIND)}" for action in view.actions}
    others = {
        "HAS_ONCE": not kinds.isdisjoint(("HAS_ONCE_LAYER", "HAS_ONCE_MODIFIERS")),
        "HAS_ONCE_END": view.timed.once_ms != 0,
        "HAS_TIMES": "HAS_TAP_HOLD" in kinds or view.timed.once_ms != 0,
        "HAS_LAYERS": len(view.layers) > 1 or "HAS_CHANGE_BASE" in kinds,
        "HAS_HANDS": view.timed.asks_hands,
        "HAS_JOINT_LAYERS": bool(view.timed.joint_layers),
        "HAS_PRESS_TIME": view.timed.press_ms != 0,
        "HAS_REMEMBERED_BASE": view.timed.remembers_base,
        "HAS_COMBINATION": bool(view.hold),
        "HAS_DOUBLE_RESET": view.double_reset,
        "HAS_WAY_TO_BOOT_LOADER": bool(view.hold)
        or view.double_reset
        or "HAS_START_BOOT_LOADER" in kinds,
    }
    return tuple(sorted(kinds | {name for name, there in others.items() if there}))
