"""What the block `keyboard` says, the settling time, and what the file does not want to hear."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from matrixgen.compare.change import Change
from matrixgen.compare.changes.computer import FIELDS as OF_COMPUTER
from matrixgen.compare.fact_words import SPEEDS, speed_words
from matrixgen.compare.facts import FactPath
from matrixgen.compare.view import View
from matrixgen.compare.works import work_of_fact
from matrixgen.model.prose import quoted
from matrixgen.model.work import WORKS, Work

CALLED = {
    "debounce_ms": "debounce time",
    "press_ms": "time of a press",
    "once_ms": "time that once lasts",
    "hold_after_ms": "time after which a press is a hold",
    "roll_ms": "time of a roll",
    "together_ms": "time of keys together",
    "pace_ms": "pace",
    "pointer": "speed of the pointer",
    "wheel": "speed of the wheels",
}
"""What a setting is called, where that is not its field's name."""

USB_IDS = ("vendor_id", "product_id")


def of_settings(view: View) -> Iterator[Change]:
    """Yield what changed in the settings."""
    yield from _usb_ids(view)
    for edit in view.of("keyboard"):
        _, field = edit.path
        if field == "remember_base":
            yield _remembered(_work(view, edit.path), is_now=bool(edit.new))
        elif field not in (*USB_IDS, *OF_COMPUTER):
            old, new = (_shown(field, value) for value in (edit.old, edit.new))
            yield _setting(_work(view, edit.path), CALLED.get(field, field), old, new)
    settle = [(e.old, e.new) for e in view.of("wiring") if e.path[1] == "settle_us"]
    for old_us, new_us in settle:
        old, new = (f"{us:g} µs" if us is not None else "as computed" for us in (old_us, new_us))
        is_same = None not in (old_us, new_us) and ceil(old_us) == ceil(new_us)
        yield _setting("cosmetic" if is_same else "reflash", "settling time", old, new)
    yield from _boot_loader(view)
    if any(view.of("allowed")):
        yield Change(
            kind="cosmetic",
            slug="allowances",
            text="other warnings are allowed",
            thing="allowance",
        )


def _work(view: View, path: FactPath) -> Work:
    """Return the work of a setting: none where an image has the same for both files."""
    effective = ("effective", path[1])
    is_same = effective in view.new and view.old[effective] == view.new[effective]
    return "cosmetic" if is_same else work_of_fact(path)


def _usb_ids(view: View) -> Iterator[Change]:
    paths = [("keyboard", field) for field in USB_IDS]
    old, new = (tuple(facts[path] for path in paths) for facts in (view.old, view.new))
    if old != new:
        work = min((_work(view, path) for path in paths), key=WORKS.index)
        yield _setting(work, "USB ids", *(_shown("usb", ids) for ids in (old, new)))


def _setting(work: Work, called: str, old: str, new: str) -> Change:
    same = ": the same image" if work == "cosmetic" else ""
    return Change(
        kind=work,
        slug=f"{called.lower().replace(' ', '-')}-changed",
        text=f"the {called} changed from {old} to {new}{same}",
        thing=called,
        old=old,
        new=new,
    )


def _remembered(work: Work, *, is_now: bool) -> Change:
    old, new = ("no", "yes") if is_now else ("yes", "no")
    return Change(
        kind=work,
        slug="remember-base-changed",
        text=f"a changed base {'outlasts' if is_now else 'no longer outlasts'} a power cut",
        thing="way to remember the base",
        old=old,
        new=new,
    )


def _shown(name: str, value: object) -> str:
    if value in (None, (), (None, None)):
        return "the default"
    if name in SPEEDS and isinstance(value, tuple):
        return speed_words(value)
    if name.endswith("_ms"):
        return f"{value:g} ms"
    if isinstance(value, tuple):
        return ":".join(f"{part:04X}" for part in value)
    return f"`{value}`"


def _boot_loader(view: View) -> Iterator[Change]:
    for edit in view.of("boot loader"):
        if edit.path[1] == "hold":
            old, new = (quoted(sorted(keys)) if keys else "none" for keys in (edit.old, edit.new))
            text = f"the keys that start the boot loader changed from {old} to {new}"
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
                text=f"on `{controller}` wires get {after} µs to settle instead of {before} µs: "
                "their length has changed",
                thing="settling time",
                old=str(before),
                new=str(after),
            )
