"""What is said at the bench, in `pins.md` and on the sheet alike: cautions and checks."""

from __future__ import annotations

from matrixgen.computer.setting import types_as
from matrixgen.model import InTurn, Keyboard, Typed, Wiring


def before_soldering() -> tuple[str, ...]:
    """Return the cautions that come first."""
    return (
        "Unplug the controller from USB before you solder or move a wire.",
        "Solder flux fumes harm lungs and an iron burns: work in moving air, wear eye "
        "protection, wash your hands after leaded solder. Where you live or work, local rules come "
        "first.",
        "A glass diode takes heat badly: keep the iron at least 4 mm from its body (1N4148 "
        "datasheet, Vishay 81857: its power rating is stated with 4 mm of lead).",
    )


def about_texts(keyboard: Keyboard) -> str | None:
    """Return the caution where a key types a text; a letter alone is none."""
    turns = (action for action in keyboard.every_action if isinstance(action, InTurn))
    steps = (step for turn in turns for step in turn.steps)
    if not any(isinstance(step, Typed) and len(step.text) > 1 for step in steps):
        return None
    return (
        "Whatever a key types can be read out of the image and out of the .keys file: no passwords."
    )


def before_plugging_in(wiring: Wiring) -> tuple[str, ...]:
    """Return what to measure with a multimeter and no USB cable (common practice, no source)."""
    return (
        "Continuity from each pin in the tables to every key of its wire.",
        "No continuity between any two wires of the tables.",
        "No continuity from any wire of the tables to VCC, RAW or 5 V: a pin that is pulled low "
        "would have to carry what the supply gives.",
        "No continuity between the USB supply and ground: a short there can harm the computer.",
        _test_of_keys(wiring),
    )


def _test_of_keys(wiring: Wiring) -> str:
    if wiring.diodes is None:
        return (
            "Continuity between the row wire and the column wire of each key while it is held "
            "down, and none once it is released."
        )
    return (
        "Diode test of each key with a diode, while it is held down: red probe on its "
        f"{wiring.sense} wire, black probe on its {wiring.drive} wire. About 0.5 to 0.7 V with "
        "silicon such as the 1N4148, less with a Schottky diode; probes swapped, or key released, "
        "open. If it conducts only with the probes swapped, its diode is reversed; near 0 V both "
        "ways, it has no diode."
    )


class Cautions:
    """What a page about a keyboard says of it at the bench, by the names that templates have."""

    keyboard: Keyboard

    @property
    def types_as(self) -> str | None:
        """Which computer the file is written for; None where it says nothing of it."""
        return types_as(self.keyboard)

    @property
    def before_soldering(self) -> tuple[str, ...]:
        """The cautions that come first."""
        return before_soldering()

    @property
    def about_texts(self) -> str | None:
        """The caution where a key types a text."""
        return about_texts(self.keyboard)

    @property
    def before_plugging_in(self) -> tuple[str, ...]:
        """What to measure before the keyboard meets a computer."""
        return before_plugging_in(self.keyboard.wiring)
