"""A controller as the bench's templates see it: every pin that may be pulled low."""

from __future__ import annotations

from typing import ClassVar

from matrixgen.boards import Pin, Profile
from matrixgen.emit.light_views import LightsView
from matrixgen.emit.line_views import LineView, pulled_up
from matrixgen.emit.tree_view import TreeView
from matrixgen.families import Family, PinPlace
from matrixgen.model.keyboard import BENCH_PRODUCT_ID, MAKER, TEST_VENDOR_ID

PROTOCOL = 2
"""The version of what the port says; `templates/firmware/bench/README.md` is its page."""

SETTLE_US = 20
"""For a metre of wire and the weakest pull-up: 80 kohm and 200 pF are at 70 % after 19 us."""


class BenchView(TreeView, kw_only=True):
    """What every template of the bench's firmware gets: each pin is a driven and a sensed line."""

    lights: ClassVar = LightsView(())
    source_folders: ClassVar = ("bench", "port", "tables", "usb")
    low_ns: ClassVar = 10_000
    knobs: ClassVar = ()

    @property
    def sense_bits(self) -> int:
        """How many bits a number has that has one for each pin."""
        return 16 if len(self.drives) <= 16 else 32 if len(self.drives) <= 32 else 64

    @property
    def pin_name_bytes(self) -> int:
        """How long the longest name of a pin is in C."""
        return max(len(line.pin) for line in self.drives) + 1

    @property
    def loader_by_speed(self) -> bool:
        """Whether firmware can start the controller's boot loader."""
        entry = self.profile.boot_loader_entry
        return self.profile.has_boot_loader and (entry is None or entry.kind != "reset button")

    @property
    def features(self) -> tuple[str, ...]:
        """The names of what it has, as conditions in the C ask for them."""
        loader = ("HAS_WAY_TO_BOOT_LOADER",) if self.loader_by_speed else ()
        return ("HAS_SERIAL_PORT", "HAS_UNKNOWN_WIRING", "HAS_SELF_REPORT", *loader)


def bench_pins(profile: Profile) -> tuple[Pin, ...]:
    """Return the pins that the bench looks at, in the profile's order.

    Those that a line may end on, but none with a part of the board on it, which is left alone.
    """
    return tuple(
        pin
        for pin in profile.pins
        if pin.is_usable and pin.part is None and pin.output and pin.pull_up
    )


def bench_view(
    profile: Profile,
    family: Family,
    port: str | None = None,
    left_alone: frozenset[str] = frozenset(),
) -> BenchView:
    """Return the view of a controller that there is firmware for.

    Pins that are `left_alone` have a light: they stay as a reset leaves them. `port`
    overrides the profile's own folder, so that the tests can build it for the host.
    """
    pins = [pin for pin in bench_pins(profile) if pin.name not in left_alone]
    drives = tuple(_pin_view(number, pin, family) for number, pin in enumerate(pins))
    return BenchView(
        product=f"Bench of {profile.name}",
        maker=MAKER,
        vendor_id=TEST_VENDOR_ID,
        product_id=BENCH_PRODUCT_ID,
        drives=drives,
        senses=drives,
        pulled_up=pulled_up(drives, (), family),
        settle_us=SETTLE_US,
        source_name=f"the profile of {profile.name}",
        port=port or profile.port or profile.family,
        profile=profile,
    )


def _pin_view(number: int, pin: Pin, family: Family) -> LineView:
    place = family.place_of(pin.name)
    assert isinstance(place, PinPlace), f"{pin.name} was let through as a pin of another family"
    return LineView(
        number=number, name=pin.name, axis="pin", pin=pin.name, port=place.port, bit=place.bit
    )
