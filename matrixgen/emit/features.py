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
    timed, combination, knobs = view.timed, bool(view.hold), bool(view.knobs)
    kinds = {f"HAS_{action.row.kind.removeprefix(_KIND)}" for action in view.actions}
    starts_loader = combination or view.double_reset or "HAS_START_BOOT_LOADER" in kinds
    others = {
        "HAS_ONCE": not kinds.isdisjoint(("HAS_ONCE_LAYER", "HAS_ONCE_MODIFIERS")),
        "HAS_SECOND_INTERFACE": not kinds.isdisjoint(("HAS_MEDIA", "HAS_POINTER")),
        "HAS_ONCE_END": timed.once_ms != 0,
        "HAS_TIMES": timed.asks_times,
        "HAS_LAYERS": len(view.layers) > 1 or "HAS_CHANGE_BASE" in kinds,
        "HAS_HANDS": timed.asks_hands,
        "HAS_JOINT_LAYERS": bool(timed.joint_layers),
        "HAS_PRESS_TIME": timed.press_ms != 0,
        "HAS_REMEMBERED_BASE": timed.remembers_base,
        "HAS_COMBINATION": combination,
        "HAS_DOUBLE_RESET": view.double_reset,
        "HAS_KNOBS": knobs,
        "HAS_LONG_SCAN": knobs and view.scan_is_long,
        "HAS_WAY_TO_BOOT_LOADER": starts_loader,
    }
    others |= view.lights.features
    return tuple(sorted(kinds | {name for name, there in others.items() if there}))
