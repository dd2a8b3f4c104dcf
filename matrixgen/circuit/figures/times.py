"""The figures of settling, of the scan, and of the way of a press to the host."""

from __future__ import annotations

from matrixgen.circuit.figures.figure import (
    Figure,
    Input,
    Section,
    Source,
    of_diode,
    of_profile,
    planned,
    supply_at_worst,
)
from matrixgen.circuit.knob_times import KEYS_DECIDED, SETS_COMPARED, STABLE_SHARE, KnobTimes
from matrixgen.circuit.planned import LEAD_METRE, ROUND_THE_BOARD_METRE, WIRE_FARAD_PER_METRE
from matrixgen.circuit.settling import Rise, Settling
from matrixgen.circuit.timing import Term, Timing, total
from matrixgen.model import Knob

MICRO = 1e-6
MEASURED = Source("the program's share", "cycles counted on the emulated chip, as built by GCC")
AMID_KEYS = Source(
    "the program's share",
    "cycles counted on the emulated chip, of the slower of both compilers' images",
)
FULL_SPEED = Source("the host", "USB 2.0 section 5.7.4: bInterval 1 at full speed, a frame of 1 ms")


def settling_figures(settling: Settling) -> Section | None:
    """Return the figures of the sensed line that takes longest; None without one."""
    slowest = settling.slowest
    if slowest is None:
        return None
    given = settling.mounted.keyboard.wiring.settle_us
    wait = Figure(
        symbol="t_wait",
        value=settling.firmware_us * MICRO,
        unit="s",
        says="that the firmware waits after each driven line"
        + (", as the file says" if given else ""),
        formula=None if given else "t_settle, rounded up to a microsecond",
    )
    found = (_rise(slowest, settling), _capacitance(slowest, settling), wait)
    line = slowest.line
    return Section(f"Settling, slowest line: {line.axis} {line.name}", found)


def _rise(slowest: Rise, settling: Settling) -> Figure:
    electrical = of_profile(settling.mounted.profile, "electrical")
    return Figure(
        symbol="t_settle",
        value=slowest.seconds,
        unit="s",
        says="until the line is sure to read high again",
        formula="-R_pull C ln(1 - V_IH / V_CC)",
        inputs=(
            Input(
                symbol="R_pull",
                value=slowest.ohm,
                unit="ohm",
                says="the weakest pull-up",
                source=electrical,
            ),
            Input(symbol="C", value=slowest.farad, unit="F", says="of the line"),
            Input(
                symbol="V_IH",
                value=slowest.high_min,
                unit="V",
                says="from here on the pin is sure to read high",
                source=electrical,
            ),
            supply_at_worst(slowest.end),
        ),
    )


def _capacitance(slowest: Rise, settling: Settling) -> Figure:
    diode = settling.diode
    return Figure(
        symbol="C",
        value=slowest.farad,
        unit="F",
        says="of the line",
        formula="C_pin + n C_D + l C_wire",
        inputs=(
            Input(
                symbol="C_pin",
                value=settling.mounted.profile.pin_farad,
                unit="F",
                says="of the pin",
                source=of_profile(settling.mounted.profile, "electrical"),
            ),
            Input(symbol="n", value=slowest.diodes, unit="", says="diodes on the line"),
            Input(
                symbol="C_D",
                value=diode.zero_bias_farad,
                unit="F",
                says=f"of a {diode.name} at 0 V",
                source=of_diode(diode, "capacitance"),
            ),
            Input(
                symbol="l",
                value=slowest.metres,
                unit="m",
                says="of wire, from key to key and on to the controller",
                source=_lead(settling),
            ),
            planned("C_wire", "F/m", WIRE_FARAD_PER_METRE),
        ),
    )


def _lead(settling: Settling) -> Source:
    """Return what the way to the controller is taken to be."""
    if settling.mounted.keyboard.plate.controller is None:
        return Source(LEAD_METRE.meaning, f"{LEAD_METRE.value:g} m: {LEAD_METRE.source}")
    more = ROUND_THE_BOARD_METRE
    return Source(
        "from the first key to the controller",
        f"and {more.value:g} m {more.meaning}: {more.source}",
    )


def time_figures(timing: Timing) -> Section | None:
    """Return how often the matrix is read and how long a press takes; None without firmware."""
    turn, to_host = timing.turn, timing.to_host
    if turn is None or to_host is None:
        return None
    debounce = timing.mounted.keyboard.debounce_ms.value / 1000
    rate = Figure(
        symbol="f_scan",
        value=1e6 / total(turn),
        unit="Hz",
        says="the whole matrix is read so often, at least",
        formula="1 / t_turn",
    )
    release = Figure(
        symbol="t_release",
        value=total(to_host) * MICRO + debounce,
        unit="s",
        says="at most, from the last opening of a contact to the host",
        formula="t_press + the debounce time",
    )
    return Section(
        "Times",
        (
            _sum("t_turn", "at most, a turn of the main loop: each line is read once", turn),
            rate,
            _sum("t_press", "at most, from the closing of a contact to the host", to_host),
            release,
        ),
    )


def knob_figures(times: KnobTimes) -> Section | None:
    """Return how fast each knob may turn; None without firmware, and without a knob."""
    knobs, unread = times.mounted.keyboard.knobs, times.unread
    if unread is None or not knobs:
        return None
    longest = _sum("t_unread", "at most, the contacts of a knob are left unread", unread)
    return Section("Knobs", (longest, *(_most_steps(knob, times) for knob in knobs)))


def _most_steps(knob: Knob, times: KnobTimes) -> Figure:
    return Figure(
        symbol="f_steps",
        value=times.most_steps(knob.states) or 0.0,
        unit="Hz",
        says=f"steps of `{knob.name}` are counted, at most",
        formula="k / (n t_unread)",
        inputs=(
            Input(symbol="n", value=knob.states, unit="", says="states a step"),
            Input(
                symbol="k",
                value=STABLE_SHARE,
                unit="",
                says="of a state, in which its contacts do not bounce",
                source=Source(
                    "bounce",
                    "at most 3 ms at 60 turns a minute, 24 pulses a turn: "
                    "datasheet of an 11 mm encoder",
                ),
            ),
        ),
    )


def _sum(symbol: str, says: str, terms: tuple[Term, ...]) -> Figure:
    inputs = tuple(
        Input(
            symbol=f"t{number}",
            value=term.us * MICRO,
            unit="s",
            says=term.name,
            source=_source(term),
        )
        for number, term in enumerate(terms, start=1)
    )
    return Figure(
        symbol=symbol,
        value=total(terms) * MICRO,
        unit="s",
        says=says,
        formula=" + ".join(one.symbol for one in inputs),
        inputs=inputs,
    )


def _source(term: Term) -> Source | None:
    if term.name in ("until the host asks", "on the cable"):
        return FULL_SPEED
    if term.name in (KEYS_DECIDED, SETS_COMPARED):
        return AMID_KEYS
    return None if term.name.startswith(("lines settle", "until")) else MEASURED
