"""The verdict of a probe as JSON."""

from __future__ import annotations

from typing import Any

from matrixgen.bench.faults.explanation import Explanation
from matrixgen.bench.faults.fault import Fault
from matrixgen.bench.serial.self_report import answer_warnings
from matrixgen.bench.verdicts.words import parts_of
from matrixgen.jobs.probe import Probed
from matrixgen.record import values_of

SCHEMA_ID = "urn:matrixgen:probe:4"


def as_json(file: str, probed: Probed) -> dict[str, Any]:
    """Return the verdict: all explanations, the likeliest first."""
    board, verdict = probed.board, probed.verdict
    return {
        "schema": SCHEMA_ID,
        "file": file,
        "controller": probed.profile.name,
        "keys": len(board.keys),
        "not_pressed": list(probed.not_pressed),
        "broken_lines": probed.broken_lines,
        "whole": probed.is_whole,
        "causes": [_cause(probed, cause) for cause in verdict.causes if cause.size],
        "knobs": {
            "faults": [{"knob": knob, "says": says} for knob, says in probed.knob_faults],
            "not_turned": list(probed.not_turned),
        },
        "unexplained": list(verdict.unexplained),
        "board": {
            "chip": probed.answers.chip,
            "facts": {name: " ".join(words) for name, words in probed.answers.facts.items()},
            "rises_us": dict(probed.answers.rises),
            "warnings": list(answer_warnings(probed.answers, probed.profile)),
        },
    }


def _cause(probed: Probed, cause: Explanation) -> dict[str, Any]:
    parts = [
        {"says": part.says, "advice": part.advice, "alike": [_fault(one) for one in part.faults]}
        for part in parts_of(probed.board, cause)
    ]
    explained, wrong = probed.explained_keys(cause)
    return {
        "faults": parts,
        "explains": {"keys": explained, "of": wrong},
        "file_can_be_told": probed.cured_text(cause) is not None,
    }


def _fault(fault: Fault) -> dict[str, Any]:
    return values_of(fault, "kind", "keys", "lines", "pins")
