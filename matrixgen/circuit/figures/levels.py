"""The figures of the low level that a pressed key gives, in the worst case."""

from __future__ import annotations

from matrixgen.boards import Profile
from matrixgen.circuit.figures.figure import Figure, Input, Section, Source, planned
from matrixgen.circuit.levels import Levels, LowLevel
from matrixgen.circuit.planned import COLDEST_CELSIUS, SWITCH_OHM
from matrixgen.model.prose import counted

LOW = "V_low"


def level_figures(levels: Levels) -> Section | None:
    """Return the figures of the key with the least margin; None where there is no key to see."""
    worst = levels.worst
    if worst is None:
        return None
    profile = levels.mounted.profile
    electrical = of_profile(profile, "electrical")
    low_max = Figure(
        symbol="V_IL",
        value=worst.limit,
        unit="V",
        says="up to here the pin is sure to read low",
        source=electrical,
    )
    margin = Figure(
        symbol="margin",
        value=worst.margin,
        unit="V",
        says="to spare" if worst.margin >= 0 else "missing",
        formula=f"V_IL - {LOW}",
    )
    found = (_low(worst, levels), low_max, margin, _current(worst, levels), _sunk(worst, levels))
    return Section(f"Low level, worst key: {_place(worst, levels)}", found)


def of_profile(profile: Profile, group: str) -> Source:
    """Return where a group of a profile's figures comes from."""
    return Source(f"{profile.name}, {group}", dict(profile.sources).get(group, "not told"))


def _place(worst: LowLevel, levels: Levels) -> str:
    matrix = levels.matrix
    ends = (matrix.senses[worst.contact.sense], matrix.drives[worst.contact.drive])
    where = []
    for line in ends:
        pin = levels.mounted.pin_of(line)
        where.append(f"{line.axis} {line.name}" + (f" on {pin.name}" if pin else ""))
    return f"`{worst.contact.key}`, {where[0]}, {where[1]}"


def _low(worst: LowLevel, levels: Levels) -> Figure:
    keys = sum(one.drive == worst.contact.drive for one in levels.matrix.contacts)
    diode, source = levels.diode, dict(levels.diode.sources)
    inputs = [
        Input(
            symbol="V_OL",
            value=worst.output_volts,
            unit="V",
            says=f"at the driven pin, with {counted(keys, 'key')} down",
        ),
        Input(
            symbol="V_F",
            value=worst.diode_volts,
            unit="V",
            says=f"at most, {diode.name} at I and {COLDEST_CELSIUS.value:g} degrees Celsius",
            source=Source(f"{diode.name}, forward", source["forward"]),
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
    profile = levels.mounted.profile
    electrical = of_profile(profile, "electrical")
    pull_up = levels.strongest_pull_up(worst.contact.sense)
    return Figure(
        symbol="I",
        value=worst.ampere,
        unit="A",
        says="through the key" + (f", fed by {worst.fed_by} lines more" if worst.fed_by else ""),
        formula="(V_CC - V_OL - V_F(I)) / (R_pull + R_switch)"
        + (" + n V_CC / R_pull" if worst.fed_by else ""),
        inputs=(
            Input(symbol="V_CC", value=profile.supply_volts, unit="V", says="the supply"),
            Input(
                symbol="R_pull",
                value=pull_up,
                unit="ohm",
                says="the strongest pull-up",
                source=electrical,
            ),
        ),
    )


def _sunk(worst: LowLevel, levels: Levels) -> Figure:
    profile = levels.mounted.profile
    line = levels.matrix.drives[worst.contact.drive]
    pin = levels.mounted.pin_of(line)
    limit = profile.sink_ampere_of(pin) if pin else profile.sink_ampere
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
    return Figure(
        symbol="I_OL",
        value=worst.sunk,
        unit="A",
        says=f"that the pin of {line.name} sinks with all its keys down; V_OL = R_low I_OL",
        inputs=tuple(inputs),
    )
