"""Which parts of the firmware a keyboard has: the names that conditions in its C ask for."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.emit.light_views import LightsView
from matrixgen.emit.timed_views import TimedView

_KIND = "ACTION_"


def features_of(
    kinds_of_action: Iterable[str],
    timed: TimedView,
    lights: LightsView,
    *,
    layers: int,
    combination: bool,
    double_reset: bool,
    knobs: bool,
    long_scan: bool,
) -> tuple[str, ...]:
    """Return the names, in alphabetical order; one that is not among them stands for nothing.

    Each kind of action that the table has gives one, as `HAS_PRESS`. `combination` and
    `double_reset` are the ways to the boot loader that the file asks for.
    """
    kinds = {f"HAS_{kind.removeprefix(_KIND)}" for kind in kinds_of_action}
    others = {
        "HAS_ONCE": not kinds.isdisjoint(("HAS_ONCE_LAYER", "HAS_ONCE_MODIFIERS")),
        "HAS_SECOND_INTERFACE": not kinds.isdisjoint(("HAS_MEDIA", "HAS_POINTER")),
        "HAS_ONCE_END": timed.once_ms != 0,
        "HAS_TIMES": timed.asks_times,
        "HAS_LAYERS": layers > 1 or "HAS_CHANGE_BASE" in kinds,
        "HAS_HANDS": timed.asks_hands,
        "HAS_JOINT_LAYERS": bool(timed.joint_layers),
        "HAS_PRESS_TIME": timed.press_ms != 0,
        "HAS_REMEMBERED_BASE": timed.remembers_base,
        "HAS_COMBINATION": combination,
        "HAS_DOUBLE_RESET": double_reset,
        "HAS_KNOBS": knobs,
        "HAS_LONG_SCAN": knobs and long_scan,
        "HAS_WAY_TO_BOOT_LOADER": combination or double_reset or "HAS_START_BOOT_LOADER" in kinds,
    }
    others |= lights.features
    return tuple(sorted(kinds | {name for name, there in others.items() if there}))
