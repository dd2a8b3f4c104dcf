"""The figures of the supply, and of the high level that leaking diodes leave in the heat."""

from __future__ import annotations

from matrixgen.boards import Profile
from matrixgen.circuit.figures.figure import (
    Figure,
    Input,
    Section,
    Source,
    of_diode,
    of_profile,
    supply_at_worst,
    to_spare,
)
from matrixgen.circuit.leakage import HighLevel, Leakage
from matrixgen.circuit.planned import WARMEST_CELSIUS


def supply_figures(profile: Profile) -> Section | None:
    """Return the range that levels, currents and times are reckoned over; None without one."""
    if profile.supply is None:
        return None
    source = Source(f"{profile.name}, supply", profile.supply.source)
    figures = [
        Figure(
            symbol="V_min",
            value=profile.supply.min,
            unit="V",
            says="the least supply, at the pins",
            source=source,
        ),
        Figure(
            symbol="V_max",
            value=profile.supply.max,
            unit="V",
            says="the most; each figure below is at the supply at which it is worst",
            source=source,
        ),
    ]
    if profile.clock_volts is not None:
        figures.append(_clock(profile, profile.supply.min, profile.clock_volts))
    return Section("Supply", tuple(figures))


def _clock(profile: Profile, least: float, needed: float) -> Figure:
    """Return what the chip needs for its clock, and by how much the least supply falls short."""
    says = f"are needed for {profile.clock_hz / 1e6:g} MHz"
    if least < needed:
        says += (
            f", and the least supply is {needed - least:.2f} V below that: plug the keyboard into "
            "the computer itself or a hub with a supply of its own, which give 4.75 V at least"
            if needed > 4
            else f", and the least supply is {needed - least:.2f} V below that"
        )
    return Figure(
        symbol="V_clock",
        value=needed,
        unit="V",
        says=says,
        source=of_profile(profile, "clock"),
    )


def high_figures(leakage: Leakage) -> Section | None:
    """Return the figures of the line that falls farthest; None where nothing leaks."""
    worst = leakage.worst
    if worst is None:
        return None
    line = worst.line
    limit = Figure(
        symbol="V_IH",
        value=worst.limit,
        unit="V",
        says="from here on the pin is sure to read high",
        source=of_profile(leakage.mounted.profile, "electrical"),
    )
    margin = to_spare("margin_IH", worst.margin, "V_high - V_IH")
    title = f"High level at {WARMEST_CELSIUS.value:g} degrees Celsius, worst line: "
    return Section(f"{title}{line.axis} {line.name}", (_high(worst, leakage), limit, margin))


def _high(worst: HighLevel, leakage: Leakage) -> Figure:
    return Figure(
        symbol="V_high",
        value=worst.volts,
        unit="V",
        says=f"at an idle sensed pin, with {worst.keys} keys of other crossings down",
        formula="V_CC - n I_R R",
        inputs=(
            supply_at_worst(worst.feed.volts),
            Input(symbol="n", value=worst.diodes, unit="", says="diodes that leak"),
            Input(
                symbol="I_R",
                value=worst.ampere,
                unit="A",
                says=f"at most, {leakage.diode.name}",
                source=of_diode(leakage.diode, "leak"),
            ),
            Input(
                symbol="R",
                value=worst.feed.ohm,
                unit="ohm",
                says="the weakest pull-ups of the lines that fall together",
                source=of_profile(leakage.mounted.profile, "electrical"),
            ),
        ),
    )
