"""A controller as the bench's templates see it: every pin that may be pulled low."""

from __future__ import annotations

from typing import ClassVar

from matrixgen import __version__
from matrixgen.boards import Pin, Profile
from matrixgen.emit.c_text import usb_string
from matrixgen.emit.light_views import LightsView
from matrixgen.emit.line_views import PortView, ShiftView, ports_of, pulled_up, shift_views
from matrixgen.families import Family, PinPlace
from matrixgen.model.keyboard import BENCH_PRODUCT_ID, MAKER, TEST_VENDOR_ID
from matrixgen.record import Record

PROTOCOL = 2
"""The version of what the port says; `templates/firmware/bench/README.md` is its page."""


class PinView(Record, kw_only=True):
    """A pin as a driven and a sensed line of `port.h`; the ports' templates read these names."""

    number: int
    pin: str
    port: str
    bit: int
    axis: str = "pin"

    @property
    def name(self) -> str:
        """What a comment calls it."""
        return self.pin


class BenchView(Record, kw_only=True):
    """What every template of the bench's firmware gets, as `view`; names as in `FirmwareView`."""

    product: str
    profile: Profile
    port: str
    drives: tuple[PinView, ...]
    pulled_up: tuple[PortView, ...]
    source_name: str
    maker: str = MAKER
    vendor_id: int = TEST_VENDOR_ID
    product_id: int = BENCH_PRODUCT_ID
    tool_version: str = __version__

    lights: ClassVar = LightsView(())
    source_folders: ClassVar = ("bench", "port", "tables", "usb")
    low_ns: ClassVar = 10_000
    knobs: ClassVar = ()
    settle_us: ClassVar = 20
    """For a metre of wire and the weakest pull-up: 80 kohm and 200 pF are at 70 % after 19 us."""

    @property
    def senses(self) -> tuple[PinView, ...]:
        """The lines that are read: the same pins."""
        return self.drives

    @property
    def chip(self) -> str:
        """The chip's name in lower case."""
        return self.profile.chip.lower()

    @property
    def sense_ports(self) -> tuple[PortView, ...]:
        """The ports that pins are on, with their bits, in alphabetical order."""
        return ports_of(self.drives)

    @property
    def sense_shifts(self) -> tuple[ShiftView, ...]:
        """The pins by how far each one's bit lies from its number."""
        return shift_views(self.drives)

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

    @property
    def product_bytes(self) -> tuple[int, ...]:
        """The product's USB string descriptor."""
        return usb_string(self.product)

    @property
    def maker_bytes(self) -> tuple[int, ...]:
        """The maker's USB string descriptor."""
        return usb_string(self.maker)


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
        profile=profile,
        port=port or profile.port or profile.family,
        drives=drives,
        pulled_up=pulled_up(drives, (), family),
        source_name=f"the profile of {profile.name}",
    )


def _pin_view(number: int, pin: Pin, family: Family) -> PinView:
    place = family.place_of(pin.name)
    assert isinstance(place, PinPlace), f"{pin.name} was let through as a pin of another family"
    return PinView(number=number, pin=pin.name, port=place.port, bit=place.bit)
