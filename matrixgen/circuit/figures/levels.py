"""The figures of the low level of a pressed key: at the worst supply, with all keys down."""

from __future__ import annotations

from matrixgen.circuit.figures.figure import (
    Figure,
    Input,
    Section,
    of_diode,
    of_profile,
    planned,
    supply_at_worst,
    to_spare,
)
from matrixgen.circuit.levels import Levels
from matrixgen.circuit.low_level import LowLevel
from matrixgen.circuit.over_supply import MOST_DOWN, LevelsOverSupply
from matrixgen.circuit.planned import COLDEST_CELSIUS, SWITCH_OHM
from matrixgen.model.prose import counted

LOW = "V_low"


def level_figures(over: LevelsOverSupply) -> Section | None:
    """Return the figures of the key with the least margin; None where there is no key to see."""
    worst = over.worst
    if worst is None:
        return None
    levels = over.levels_of(worst)
    low_max = Figure(
        symbol="V_IL",
        value=worst.limit,
        unit="V",
        says="up to here the pin is sure to read low",
        source=of_profile(levels.mounted.profile, "electrical"),
    )
    margin = to_spare("margin", worst.margin, f"V_IL - {LOW}")
    found = [_low(worst, levels), low_max, margin, _current(worst, levels), _sunk(worst, levels)]
    if least := over.fails_from(worst):
        found.insert(3, _fails(least, worst.down))
    return Section(f"Low level, worst key: {_place(worst, levels)}", tuple(found))


def _fails(least: int, down: int) -> Figure:
    checked = f"check reckons with {MOST_DOWN}" if down > MOST_DOWN else "check tells so"
    return Figure(
        symbol="n_fails",
        value=least,
        unit="keys",
        says=f"down on the driven line are enough that it is not sure to read low; {checked}",
    )


def _place(worst: LowLevel, levels: Levels) -> str:
    matrix = levels.matrix
    ends = (matrix.senses[worst.contact.sense], matrix.drives[worst.contact.drive])
    where = []
    for line in ends:
        pin = levels.mounted.pin_of(line)
        where.append(f"{line.axis} {line.name}" + (f" on {pin.name}" if pin else ""))
    return f"`{worst.contact.key}`, {where[0]}, {where[1]}"


def _low(worst: LowLevel, levels: Levels) -> Figure:
    diode = levels.diode
    inputs = [
        Input(
            symbol="V_OL",
            value=worst.output_volts,
            unit="V",
            says=f"at the driven pin, with {counted(worst.down, 'key')} down",
        ),
        Input(
            symbol="V_F",
            value=worst.diode_volts,
            unit="V",
            says=f"at most, {diode.name} at I and {COLDEST_CELSIUS.value:g} degrees Celsius",
            source=of_diode(diode, "forward"),
        ),
        Input(symbol="I", value=worst.ampere, unit="A", says="through the key"),
        planned("R_switch", "ohm", SWITCH_OHM),
    ]
    if worst.contact.diode == "none":
        del inputs[1]
    return Figure(
        symbol=LOW,
        value=worst.volts,
        unit="V",
        says="at the sensed pin while the key is pressed",
        formula="V_OL + V_F(I) + I R_switch" if len(inputs) > 3 else "V_OL + I R_switch",
        inputs=tuple(inputs),
    )


def _current(worst: LowLevel, levels: Levels) -> Figure:
    line = levels.matrix.senses[worst.contact.sense]
    feed, pin = levels.feeds.of(line), levels.mounted.pin_of(line)
    is_more = pin and feed.ohm != levels.mounted.profile.pull_up_of(pin).min
    part = f" with the {pin.part} on the board" if pin and is_more else ""
    inputs = [
        supply_at_worst(feed.volts, part),
        Input(
            symbol="R_pull",
            value=feed.ohm,
            unit="ohm",
            says="the strongest pull-up" + part,
            source=of_profile(levels.mounted.profile, "electrical"),
        ),
    ]
    formula = "(V_CC - V_OL - V_F(I)) / (R_pull + R_switch)"
    if worst.fed_by:
        own = (feed.volts - worst.output_volts - worst.diode_volts) / (feed.ohm + SWITCH_OHM.value)
        says = f"at most, from {counted(worst.fed_by, 'other line')}, each by its own pull-up"
        inputs.append(Input(symbol="I_fed", value=worst.ampere - own, unit="A", says=says))
        formula += " + I_fed"
    return Figure(
        symbol="I",
        value=worst.ampere,
        unit="A",
        says="through the key",
        formula=formula,
        inputs=tuple(inputs),
    )


def _sunk(worst: LowLevel, levels: Levels) -> Figure:
    profile = levels.mounted.profile
    line = levels.matrix.drives[worst.contact.drive]
    limit = profile.sink_ampere_of(levels.mounted.pin_of(line))
    inputs = [
        Input(
            symbol="R_low",
            value=profile.output_low_ohm,
            unit="ohm",
            says="the driven pin, V_OL / I_OL",
            source=of_profile(profile, "electrical"),
        )
    ]
    if limit is not None:
        inputs.append(Input(symbol="I_max", value=limit, unit="A", says="that the pin may sink"))
    elif profile.drive_ampere is not None:
        says = "is the drive strength that the firmware chooses, at which R_low holds: no limit"
        inputs.append(Input(symbol="I_drive", value=profile.drive_ampere, unit="A", says=says))
    return Figure(
        symbol="I_OL",
        value=worst.sunk,
        unit="A",
        says=f"that the pin of {line.name} sinks with {counted(worst.down, 'key')} down; "
        "V_OL = R_low I_OL",
        inputs=tuple(inputs),
    )
