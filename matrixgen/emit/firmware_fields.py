"""What the templates of a keyboard's firmware know of it: plain numbers and comments."""

from __future__ import annotations

from matrixgen.emit.action_views import ActionView, LayerView
from matrixgen.emit.c_text import row_width
from matrixgen.emit.knob_view import KnobView
from matrixgen.emit.light_views import LightsView
from matrixgen.emit.media_view import MediaTable
from matrixgen.emit.pointer_view import PointerView
from matrixgen.emit.timed_views import TimedView
from matrixgen.emit.together_view import TogetherView
from matrixgen.emit.tree_view import TreeView
from matrixgen.emit.turn_view import TurnView
from matrixgen.emit.with_view import WithRows
from matrixgen.families import FAMILIES
from matrixgen.model import Contact

_KIND = "ACTION_"


class FirmwareView(TreeView, kw_only=True):
    """What every template of a keyboard's firmware gets.

    `key_at` has, for each driven line, the key number at each sensed line, or None.
    `key_names` and `plate_rows`, which has the key numbers of each line of the plate, have the
    steps of each knob last.
    """

    key_names: tuple[str, ...]
    plate_rows: tuple[tuple[int, ...], ...]
    key_at: tuple[tuple[int | None, ...], ...]
    actions: tuple[ActionView, ...]
    layers: tuple[LayerView, ...]
    media: MediaTable
    pointer: PointerView
    hold: tuple[Contact, ...]
    has_boot_loader_key: bool
    double_reset: bool
    knobs: tuple[KnobView, ...]
    debounce_ms: int
    timed: TimedView
    in_turn: TurnView
    with_modifiers: tuple[WithRows, ...]
    lights: LightsView
    together: TogetherView
    scan_is_long: bool

    source_folders = ("engine", "engine/behaviours", "port", "tables", "usb")
    """Where the C files of the tree lie, but for `main.c`."""

    def keys_of(self, drive: int) -> tuple[str, ...]:
        """Return the keys' names on a driven line, by sensed line; `-` where there is none."""
        return tuple("-" if key is None else self.key_names[key] for key in self.key_at[drive])

    @property
    def key_count(self) -> int:
        """How many keys the plate has."""
        return len(self.key_names) - 2 * len(self.knobs)

    @property
    def low_ns(self) -> int:
        """How long a driven line is low before the sensed lines are read."""
        return FAMILIES[self.port].low_ns

    @property
    def features(self) -> tuple[str, ...]:
        """The names of what it has, as conditions in the C ask for them, in alphabetical order.

        One that is not among them stands for nothing. Each kind of action that the table has gives
        one, as `HAS_PRESS`.
        """
        timed, combination, knobs = self.timed, bool(self.hold), bool(self.knobs)
        kinds = {f"HAS_{action.row.kind.removeprefix(_KIND)}" for action in self.actions}
        starts_loader = combination or self.double_reset or "HAS_START_BOOT_LOADER" in kinds
        others = {
            "HAS_ONCE": not kinds.isdisjoint(("HAS_ONCE_LAYER", "HAS_ONCE_MODIFIERS")),
            "HAS_SECOND_INTERFACE": not kinds.isdisjoint(("HAS_MEDIA", "HAS_POINTER")),
            "HAS_ONCE_END": timed.once_ms != 0,
            "HAS_TIMES": timed.asks_times,
            "HAS_LAYERS": len(self.layers) > 1 or "HAS_CHANGE_BASE" in kinds,
            "HAS_HANDS": timed.asks_hands,
            "HAS_JOINT_LAYERS": bool(timed.joint_layers),
            "HAS_PRESS_TIME": timed.press_ms != 0,
            "HAS_REMEMBERED_BASE": timed.remembers_base,
            "HAS_COMBINATION": combination,
            "HAS_DOUBLE_RESET": self.double_reset,
            "HAS_KNOBS": knobs,
            "HAS_LONG_SCAN": knobs and self.scan_is_long,
            "HAS_WAY_TO_BOOT_LOADER": starts_loader,
        }
        others |= self.lights.features
        return tuple(sorted(kinds | {name for name, there in others.items() if there}))

    @property
    def second_interface(self) -> str:
        """What the second interface is for, in words."""
        both = ["the media keys"] * bool(self.media.keys) + ["the pointer"] * self.pointer.is_there
        return " and ".join(both)

    @property
    def answer_bits(self) -> int:
        """How many bits a number has that is greater than the longest answer to the host."""
        return 8 if self.media.descriptor_bytes + self.pointer.descriptor_bytes < 0xFF else 16

    @property
    def sense_bits(self) -> int:
        """How many bits a number has that has one for each sensed line."""
        return _bits_for(len(self.senses))

    @property
    def layer_bits(self) -> int:
        """How many bits a number has that has one for each layer."""
        return _bits_for(len(self.layers))

    @property
    def key_bits(self) -> int:
        """How many bits a key's number has: its largest value means that there is no key."""
        return 8 if len(self.key_names) <= 0xFE else 16

    @property
    def knob_bits(self) -> int:
        """How many bits a number has that has two for each knob."""
        return _bits_for(2 * len(self.knobs))

    @property
    def action_bits(self) -> int:
        """How many bits an action's number has."""
        return 8 if len(self.actions) <= 0xFE else 16

    @property
    def crossing_width(self) -> int:
        """How wide a cell of the crossing table is, in characters."""
        return row_width((*self.key_names, *(line.name for line in self.senses)), len("NO_KEY, "))

    @property
    def cell_width(self) -> int:
        """How wide a cell of a layer's table is, in characters."""
        words = (word for layer in self.layers for word in layer.words)
        return row_width(words, len(f"{len(self.actions)}, "))


def _bits_for(places: int) -> int:
    return 8 if places <= 8 else 16 if places <= 16 else 32
