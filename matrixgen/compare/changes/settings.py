"""What the block `keyboard` says, the settling time, and what the file does not want to hear."""

from __future__ import annotations

from collections.abc import Iterator, Mapping

from matrixgen.compare.change import Change
from matrixgen.compare.view import View
from matrixgen.model.prose import quoted

CALLED = {
    "name": "name",
    "maker": "maker",
    "usb": "USB ids",
    "debounce ms": "debounce time",
    "press ms": "time of a press",
    "once ms": "time that once lasts",
}


def of_settings(view: View) -> Iterator[Change]:
    """Yield what changed in the settings."""
    for edit in view.of("keyboard"):
        if edit.path[1] == "remember base":
            yield _remembered(is_now=bool(edit.new))
            continue
        old, new = (_shown(edit.path[1], value) for value in (edit.old, edit.new))
        yield _setting(CALLED[edit.path[1]], old, new)
    settle = [(e.old, e.new) for e in view.of("wiring") if e.path[1] == "settle us"]
    for old_us, new_us in settle:
        shown = (f"{us:g} us" if us is not None else "as computed" for us in (old_us, new_us))
        yield _setting("settling time", *shown)
    yield from _boot_loader(view)
    if any(view.of("allowed")):
        yield Change(
            kind="cosmetic",
            slug="allowances",
            text="other warnings are allowed",
            thing="allowance",
        )


def _setting(called: str, old: str, new: str) -> Change:
    return Change(
        kind="reflash",
        slug=f"{called.lower().replace(' ', '-')}-changed",
        text=f"the {called} is {new} now, and was {old}",
        thing=called,
        old=old,
        new=new,
    )


def _remembered(*, is_now: bool) -> Change:
    old, new = ("no", "yes") if is_now else ("yes", "no")
    return Change(
        kind="reflash",
        slug="remember-base-changed",
        text=f"a changed base {'outlasts' if is_now else 'no longer outlasts'} a power cut",
        thing="way to remember the base",
        old=old,
        new=new,
    )


def _shown(name: str, value: object) -> str:
    if value is None or value == (None, None):
        return "not given"
    if name.endswith(" ms"):
        return f"{value:g} ms"
    if isinstance(value, tuple):
        return ":".join(f"{part:04X}" for part in value)
    return f"`{value}`"


def _boot_loader(view: View) -> Iterator[Change]:
    for edit in view.of("boot loader"):
        if edit.path[1] == "hold":
            old, new = (quoted(sorted(keys)) if keys else "none" for keys in (edit.old, edit.new))
            text = f"the boot loader is held with {new} now, and was with {old}"
        else:
            old, new = ("yes" if on else "no" for on in (edit.old, edit.new))
            text = f"a double reset {'starts' if edit.new else 'no longer starts'} the boot loader"
        yield Change(
            kind="reflash",
            slug="boot-loader-changed",
            text=text,
            thing="way to the boot loader",
            old=old,
            new=new,
        )


def of_waits(old: Mapping[str, int], new: Mapping[str, int]) -> Iterator[Change]:
    """Yield each controller of both files whose lines are given another time to settle.

    `old` and `new` are microseconds by controller, as they were computed.
    """
    for controller in old.keys() & new.keys():
        before, after = old[controller], new[controller]
        if before != after:
            yield Change(
                kind="reflash",
                slug="settle-computed",
                text=f"lines get {after} us to settle on `{controller}`, and got {before} us: "
                "their wires are of another length",
                thing="settling time",
                old=str(before),
                new=str(after),
            )
