"""The same networks in ngspice (Debian's package): a netlist, a run, the voltages it prints."""

from __future__ import annotations

import re
import subprocess
from collections.abc import Iterable, Sequence
from math import log
from typing import NamedTuple

from matrixgen.boards.diode_part import DiodePart, ForwardPoint
from matrixgen.model import Contact

CELSIUS = 25.0
THERMAL_VOLTS = 1.380649e-23 * (CELSIUS + 273.15) / 1.602176634e-19
FAIRCHILD = {"IS": 5.0e-9, "RS": 0.8622, "N": 2.0}
"""`1N914B.mod`, headed "Fairchild Semiconductor May-31-2007", for the 1N914B/4148 family."""
DIODES_INC = {"IS": 222e-12, "RS": 0.0686, "N": 1.65}
"""Diodes Inc., `spicemodels_switching_diodes.txt`, 1N4148, quoted with its header line."""


class Circuit(NamedTuple):
    """What is at the lines of a matrix: pull-ups in ohms, one a line; all else is alike for all."""

    supply_volts: float
    driver_ohm: float
    switch_ohm: float
    drive_pull_ohm: tuple[float, ...]
    sense_pull_ohm: tuple[float, ...]


def shockley(model: dict[str, float]) -> DiodePart:
    """A diode whose curve is a SPICE model's own equation, at points close to each other."""
    amperes = [10 ** (exponent / 40) for exponent in range(-400, -40)]
    points = tuple(
        ForwardPoint(
            ampere=ampere,
            volts_typical=volts_of(model, ampere),
            volts_max=volts_of(model, ampere),
            volts_per_kelvin=0.0,
        )
        for ampere in amperes
    )
    return DiodePart(
        name="model",
        title="a SPICE model",
        forward=points,
        zero_bias_farad=4e-12,
        reverse_volts=75,
        sources=(),
    )


def volts_of(model: dict[str, float], ampere: float) -> float:
    """V = N VT ln(I / IS + 1) + I RS."""
    return model["N"] * THERMAL_VOLTS * log(ampere / model["IS"] + 1) + ampere * model["RS"]


def netlist(
    circuit: Circuit, pressed: Iterable[Contact], drive: int, model: dict[str, float]
) -> list[str]:
    """The network as ngspice reads it: nodes d0, d1, ... and s0, s1, ..."""
    lines = [f"VCC vcc 0 {circuit.supply_volts}"]
    for axis, pulls in (("d", circuit.drive_pull_ohm), ("s", circuit.sense_pull_ohm)):
        lines += [f"R{axis}{n} vcc {axis}{n} {ohm}" for n, ohm in enumerate(pulls)]
    lines.append(f"RLOW d{drive} 0 {circuit.driver_ohm}")
    for n, key in enumerate(pressed):
        if key.diode == "none":
            lines.append(f"RK{n} s{key.sense} d{key.drive} {circuit.switch_ohm}")
            continue
        ends = (f"s{key.sense}", f"d{key.drive}")
        anode, cathode = ends if key.diode == "toward" else ends[::-1]
        lines += [f"RK{n} {anode} k{n} {circuit.switch_ohm}", f"DK{n} k{n} {cathode} DM"]
    parameters = " ".join(f"{name}={value}" for name, value in model.items())
    return [*lines, f".model DM D({parameters})"]


EXACT = "reltol=1e-9 abstol=1e-15 vntol=1e-9 gmin=1e-15"
IN_TIME = "reltol=1e-5 abstol=1e-12 vntol=1e-7"


def run(lines: Sequence[str], commands: Sequence[str], tolerances: str = EXACT) -> str:
    """Return what ngspice prints for a netlist and the commands of its control section."""
    options = f".options temp={CELSIUS} tnom={CELSIUS} {tolerances}"
    text = "\n".join(
        ["matrix", *lines, options, ".control", "set numdgt=12", *commands, ".endc", ".end", ""]
    )
    command = ["ngspice", "-b", "/dev/stdin"]
    done = subprocess.run(command, input=text, capture_output=True, text=True, check=False)
    assert "error" not in done.stderr.lower(), done.stderr
    return done.stdout


def node_volts(
    circuit: Circuit, pressed: Iterable[Contact], drive: int, model: dict[str, float]
) -> dict[str, float]:
    """Return the operating point: volts by node."""
    printed = run(netlist(circuit, pressed, drive, model), ["op", "print all"])
    return {name: float(value) for name, value in re.findall(r"^(\w+) = (\S+)$", printed, re.M)}
