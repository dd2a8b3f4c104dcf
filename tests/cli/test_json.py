"""`--json` in every command that has it: `schema` names the form, and failures have one form."""

from __future__ import annotations

import importlib
import json

import pytest

from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.parser import Parser
from matrixgen.rehearse.happening import Happening, KeyHappening
from matrixgen.resources import resource
from tests.documents import report_of, validator

WRONG = 'keyboard "Pad"\n  controller nowhere\n'


def has_json(command: str) -> bool:
    parser = Parser()
    module = importlib.import_module(f"matrixgen.cli.{command.replace('-', '_')}")
    module.add_arguments(parser)
    return "--json" in parser.format_help()


WITH_JSON = [command for command in COMMANDS if has_json(command)]

WORDS = {
    "check": ["pad.keys"],
    "fit": ["pad.keys"],
    "rehearse": ["pad.keys", "--script", "steps"],
    "figures": ["pad.keys"],
    "boards": [],
    "layouts": [],
    "diff": ["pad.keys", "other.keys"],
    "history": ["pad.keys"],
}
"""What each command answers with a report; `tests/bench_port` has that of `probe`."""

REFUSED = {
    "check": ["--no-such-option", "pad.keys"],
    "fit": ["pad.keys", "--replace"],
    "rehearse": ["pad.keys", "--script", "nowhere"],
    "figures": ["nowhere.keys"],
    "boards": ["nowhere"],
    "layouts": ["nowhere"],
    "diff": ["wrong.keys", "HEAD:nowhere.keys"],
    "history": ["nowhere.keys"],
    "probe": ["wrong.keys"],
}
"""What each cannot answer."""


@pytest.fixture
def desk(program, repository):
    """A folder of a repository with some files."""
    program.write("pad.keys")
    repository.commit()
    program.write("other.keys", (program.folder / "pad.keys").read_text("utf-8") + "\n# more\n")
    program.write("wrong.keys", WRONG)
    program.write("steps", "A\n")
    return program


def test_each_command_with_json_is_tried():
    assert {*WORDS, "probe"} == set(REFUSED) == set(WITH_JSON)


@pytest.mark.parametrize("command", WORDS)
def test_a_report_names_its_form(command, desk):
    ran = desk(command, *WORDS[command], "--json")
    assert report_of(ran.out, command) and ran.err == ""


def test_one_controller_is_in_the_form_of_all_and_its_form_names_each_field(desk):
    """So no field goes away, or gets another name, in a form of the same number."""
    controller = report_of(desk("boards", "rp2040", "--json").out, "boards")["controller"]
    form = validator("boards").schema["properties"]["controller"]
    assert form["required"] == list(controller)
    pins = form["properties"]["pins"]["items"]
    assert all(pins["required"] == list(pin) for pin in controller["pins"])


@pytest.mark.parametrize("command", REFUSED)
def test_a_refusal_has_the_same_form_everywhere(command, desk):
    ran = desk(command, *REFUSED[command], "--json")
    report = report_of(ran.out, "failure")
    assert ran.status != 0 and report["command"] == command
    assert report["findings"] and report["findings"][0]["message"] in ran.err
    quiet = desk(command, *REFUSED[command])
    assert quiet.status == ran.status and quiet.err == ran.err


@pytest.mark.parametrize("command", COMMANDS)
def test_so_has_what_the_options_do_not_fit(command, desk):
    ran = desk(command, "--json", "--no-such-option")
    report = report_of(ran.out, "failure")
    assert (ran.status, report["command"]) == (2, command)
    assert [found["slug"] for found in report["findings"]] == ["bad-use"]


def test_the_schema_knows_whatever_can_happen():
    what = validator("rehearse").schema["properties"]["happenings"]["items"]["properties"]["what"]
    kinds = [*Happening.__subclasses__(), *KeyHappening.__subclasses__()]
    kinds.remove(KeyHappening)
    assert sorted(what["enum"]) == sorted(kind.what for kind in kinds)


def test_findings_of_a_failure_are_as_check_has_them(desk):
    failed = report_of(desk("fit", "wrong.keys", "--json").out, "failure")
    checked = report_of(desk("check", "wrong.keys", "--json").out, "check")
    assert failed["findings"] == [one for one in checked["findings"] if one["severity"] == "error"]


def test_the_mistakes_of_a_profile_are_findings_too(desk):
    profile = (resource("boards") / "rp2040.json").read_text("utf-8")
    desk.write("own.json", profile.replace('"free"', '"fre"'))
    report = report_of(desk("boards", "own.json", "--json").out, "failure")
    assert {found["slug"] for found in report["findings"]} == {"bad-profile"}


def test_a_controller_that_nobody_knows_keeps_its_name(desk):
    report = json.loads(desk("boards", "nowhere", "--json").out)
    assert [found["slug"] for found in report["findings"]] == ["unknown-controller"]


def test_a_file_called_as_the_option_is_asks_for_nothing(desk):
    desk.write("--json", "")
    assert "{" not in desk("check", "--", "--json").out
