"""The lights as the firmware's templates see them: numbers, bits, ports."""

from __future__ import annotations

from collections.abc import Iterable

from matrixgen.boards import Mounted, Pin
from matrixgen.emit.line_views import PinView
from matrixgen.families import Family
from matrixgen.model import BASE, LOCKS, Keyboard, Light
from matrixgen.record import Record, changed


class LightView(PinView, kw_only=True):
    """A light; `leds` and `layers` are bits of what it shows."""

    name: str
    is_to_supply: bool
    leds: int
    layers: int


class LightsView(Record):
    """All lights, in the order of their pins, so that no order in the file makes another image."""

    lights: tuple[LightView, ...]

    @property
    def bits(self) -> int:
        """How many bits a number has that has one for each light."""
        return 8 if len(self.lights) <= 8 else 16

    @property
    def features(self) -> dict[str, bool]:
        """Which names conditions in the C ask for."""
        return {
            "HAS_LIGHTS": bool(self.lights),
            "HAS_LOCK_LIGHTS": any(light.leds for light in self.lights),
            "HAS_LAYER_LIGHTS": any(light.layers for light in self.lights),
        }

    def table_bytes(self, layer_bytes: int) -> int:
        """Return what the table takes, a set of layers having so many bytes."""
        features = self.features
        row = features["HAS_LOCK_LIGHTS"] + layer_bytes * features["HAS_LAYER_LIGHTS"]
        return len(self.lights) * row

    def row_of(self, light: LightView) -> str:
        """Return a light's row of the table: the fields that some light needs."""
        features = self.features
        fields = [f"0x{light.leds:02X}"] if features["HAS_LOCK_LIGHTS"] else []
        fields += [f"0x{light.layers:X}"] if features["HAS_LAYER_LIGHTS"] else []
        return ", ".join(fields)


def lights_view(mounted: Mounted, family: Family | None) -> LightsView:
    """Return the view of the lights of a keyboard.

    Without a family, as for a page, a light has no port, and they are in the order of their names.
    """
    layers = layer_bits(mounted.keyboard)
    lights = by_name(mounted.keyboard.wiring.lights)
    found = [_light(light, mounted, family, layers) for light in lights]
    found.sort(key=lambda light: (light.port, light.bit))
    return LightsView(tuple(changed(one, number=number) for number, one in enumerate(found)))


def by_name(lights: Iterable[Light]) -> list[Light]:
    """Return lights in the order of their names: that of their numbers where they have no pins."""
    return sorted(lights, key=lambda light: light.name.text)


def layer_bits(keyboard: Keyboard) -> dict[str, int]:
    """Return the bit of each layer, by its name."""
    assert keyboard.layers[0].name.text == BASE
    return {layer.name.text: 1 << number for number, layer in enumerate(keyboard.layers)}


def _light(
    light: Light, mounted: Mounted, family: Family | None, layers: dict[str, int]
) -> LightView:
    pins = mounted.pins_of(light)
    pin: Pin | None = pins[0] if pins else None
    place = family.place_of(pin.name) if family and pin else None
    return LightView(
        number=0,
        name=light.name.text,
        pin=pin.name if pin else "",
        port=place.port if place else "",
        bit=place.bit if place else 0,
        is_to_supply=light.side == "supply",
        leds=1 << LOCKS.index(light.lock) if light.lock else 0,
        layers=sum(layers[word.text] for word in light.layers),
    )
