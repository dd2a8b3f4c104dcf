"""SARIF against the published schema (tests/cli/data/README.md names its source)."""

import json
from pathlib import Path

from jsonschema import Draft4Validator

from tests.cli.test_check import TEN_MISTAKES, WARNED
from tests.texts import GOOD

SCHEMA = json.loads((Path(__file__).parent / "data" / "sarif-2.1.0-rtm.5.json").read_bytes())
VALIDATOR = Draft4Validator(SCHEMA, format_checker=Draft4Validator.FORMAT_CHECKER)


def report(program, *files: str) -> dict:
    log = json.loads(program("check", "--sarif", *files).out)
    assert [error.message for error in VALIDATOR.iter_errors(log)] == []
    return log


def test_the_schema_refuses_what_is_no_sarif():
    assert not VALIDATOR.is_valid({"version": "2.1.0"})
    assert not VALIDATOR.is_valid({"version": "2.1.0", "runs": [{"tool": {}}]})


def test_a_report_with_findings_is_valid(program):
    first, second = program.write("ten.keys", TEN_MISTAKES), program.write("a b#é.keys", WARNED)
    results = report(program, first, second)["runs"][0]["results"]
    assert len(results) > 10
    uris = {r["locations"][0]["physicalLocation"]["artifactLocation"]["uri"] for r in results}
    assert uris == {"ten.keys", "a%20b%23%C3%A9.keys"}


def test_a_report_without_findings_is_valid(program):
    assert report(program, program.write("pad.keys"))["runs"][0]["results"] == []


def test_a_report_on_unreadable_and_piped_input_is_valid(program):
    assert len(report(program, "missing.keys", str(program.folder))["runs"][0]["results"]) == 2
    report(program, "-")


def test_every_result_points_at_its_rule_and_its_place(program):
    run = report(program, program.write("pad.keys", GOOD.replace("PB1", "PB0")))["runs"][0]
    (result,) = run["results"]
    rule = run["tool"]["driver"]["rules"][result["ruleIndex"]]
    assert rule["id"] == result["ruleId"] == "pin-used-twice"
    assert rule["help"]["markdown"].startswith("# ")
    region = result["locations"][0]["physicalLocation"]["region"]
    assert region == {"startLine": 12, "startColumn": 16, "endLine": 12, "endColumn": 19}
    assert len(result["relatedLocations"]) == 1
    assert "Help: `PB4` is spare." in result["message"]["text"]


def test_every_rule_has_a_level_and_a_page(program):
    rules = report(program, program.write("pad.keys"))["runs"][0]["tool"]["driver"]["rules"]
    assert len(rules) > 40
    assert {rule["defaultConfiguration"]["level"] for rule in rules} == {"error", "warning"}
