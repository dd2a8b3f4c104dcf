"""Keys that are on another wire now, and how each comes off one and onto the other."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from matrixgen.compare.change import BenchStep, Change
from matrixgen.compare.view import View
from matrixgen.model.prose import quoted


def along(visits: Sequence[str]) -> str:
    """Return which keys a wire visits; one may be planned that visits none yet."""
    return f" along {quoted(visits)}" if visits else ""


def rewired(view: View) -> Iterator[Change]:
    """Yield each key of both files that is on another wire now."""
    for key in view.kept_keys:
        before, after = view.old_lines.get(key, {}), view.new_lines.get(key, {})
        for axis in ("row", "column"):
            old, new = before.get(axis), after.get(axis)
            is_all_new = old in view.edits.gone.lines and new in view.added_lines
            if old != new and not is_all_new:
                yield Change(
                    kind="solder",
                    slug="key-rewired",
                    text=_moved_text(key, axis, old, new),
                    thing="key rewired",
                    keys=(key,),
                    old=old,
                    new=new,
                    steps=tuple(_rewiring(view, key, old, new)),
                    reflashes=True,
                )


def _moved_text(key: str, axis: str, old: str | None, new: str | None) -> str:
    if old is None:
        return f"key `{key}` is now on {axis} `{new}`"
    if new is None:
        return f"key `{key}` is no longer on {axis} `{old}`"
    return f"key `{key}` moved from {axis} `{old}` to `{new}`"


def _rewiring(view: View, key: str, old: str | None, new: str | None) -> Iterator[BenchStep]:
    """Yield how a key comes off one wire and onto another one."""
    for line in (old, new):
        if line in view.lines_run_anew:
            yield BenchStep("take off", f"remove the wire `{line}`")
            yield BenchStep("wire", f"run the wire `{line}` again{along(view.new['visits', line])}")
    mended = view.edits.gone.lines | set(view.added_lines) | view.lines_run_anew
    if old is not None and old not in mended:
        around = _neighbours(view.old["visits", old], key)
        joined = f", and connect {quoted(around)}" if len(around) == 2 else ""
        yield BenchStep("cut", f"cut `{old}` free of `{key}`{joined}")
    if new is not None and new not in mended:
        around = _neighbours(view.new["visits", new], key)
        between = f" between {quoted(around)}" if len(around) == 2 else ""
        beside = f" beside {quoted(around)}" if len(around) == 1 else ""
        yield BenchStep("wire", f"solder `{key}` to `{new}`{between}{beside}")


def _neighbours(visits: Sequence[str], key: str) -> list[str]:
    place = visits.index(key)
    return [*visits[max(place - 1, 0) : place], *visits[place + 1 : place + 2]]
