"""The hooks before a commit, and the workflow for pull requests: they run what they name."""

from __future__ import annotations

import importlib.util
import json
import os
import re
import subprocess
import sys

import pytest

from tests.pages import CHECKOUT
from tests.texts import GOOD

HOOKS = (CHECKOUT / ".pre-commit-hooks.yaml").read_text("utf-8")
WORKFLOW = (CHECKOUT / "examples" / "check-on-pull-request.yml").read_text("utf-8")
HAS_YAML = importlib.util.find_spec("yaml") is not None
BAD = GOOD.replace("on PB1", "on PB0")
SPACED = GOOD.replace("line A B", "line      A       B")


def hooks() -> dict[str, dict[str, str]]:
    """Each hook by its id; by lines, where nothing installed reads YAML."""
    if HAS_YAML:
        import yaml

        return {one["id"]: one for one in yaml.safe_load(HOOKS)}
    parts = HOOKS.split("- id: ")[1:]
    return {
        part.split("\n")[0]: dict(re.findall(r"^  (\w+): (.*)$", part, re.MULTILINE))
        for part in parts
    }


def commands() -> list[str]:
    """What the workflow's steps run, the installation left out."""
    if HAS_YAML:
        import yaml

        steps = yaml.safe_load(WORKFLOW)["jobs"]["check"]["steps"]
        found = [step["run"] for step in steps if "run" in step]
    else:
        found = re.findall(r"^ +run: (.*)$", WORKFLOW, re.MULTILINE)
    return [one for one in found if not one.startswith("pip install")]


def test_there_is_a_hook_to_check_and_one_for_the_form():
    assert set(hooks()) == {"matrixgen-check", "matrixgen-fmt"}
    for hook in hooks().values():
        assert hook["language"] == "python"
        assert re.search(hook["files"], "pads/night.keys")
        assert not re.search(hook["files"], "night.keys.txt")


@pytest.mark.parametrize(
    ("name", "text", "status"),
    [
        ("matrixgen-check", GOOD, 0),
        ("matrixgen-check", BAD, 1),
        ("matrixgen-fmt", SPACED, 1),
    ],
)
def test_a_hook_s_command_finds_what_it_is_for_and_changes_nothing(program, name, text, status):
    path = program.write("pad.keys", text)
    _, *words = hooks()[name]["entry"].split()
    assert program(*words, path).status == status
    assert (program.folder / path).read_text() == text


def test_the_form_s_hook_is_content_with_what_fmt_wrote(program):
    path = program.write("pad.keys", SPACED)
    assert program("fmt", path).status == 0
    _, *words = hooks()["matrixgen-fmt"]["entry"].split()
    assert program(*words, path).status == 0


@pytest.fixture
def ran(repository, monkeypatch, tmp_path_factory):
    """Run the workflow's commands in a repository, as its shell does."""
    home = tmp_path_factory.mktemp("bin")
    script = home / "matrixgen"
    script.write_text(f'#!/bin/sh\nexec "{sys.executable}" -P -m matrixgen "$@"\n')
    script.chmod(0o755)
    monkeypatch.setenv("PATH", f"{home}{os.pathsep}{os.environ['PATH']}")

    def run(text: str | None) -> list[int]:
        if text:
            repository.write("night pad.keys", text)
        repository.commit()
        shell = ["bash", "-e", "-o", "pipefail", "-c"]
        where = repository.folder
        return [
            subprocess.run([*shell, one], cwd=where, capture_output=True, check=False).returncode
            for one in commands()
        ]

    return run


def test_the_workflow_s_commands_pass_for_a_sound_file_and_for_none(ran, program):
    assert ran(None) == [0, 0]
    program.write("night pad.keys", GOOD)
    program("fmt", "night pad.keys")
    assert ran(None) == [0, 0]
    report = json.loads((program.folder / "keyboards.sarif").read_text())
    assert report["runs"][0]["results"] == []


def test_the_workflow_s_commands_fail_for_a_mistake_and_leave_a_report_of_it(ran, program):
    status = ran(BAD)
    assert status[0] != 0
    report = json.loads((program.folder / "keyboards.sarif").read_text())
    assert [one["ruleId"] for one in report["runs"][0]["results"]] == ["pin-used-twice"]
    assert ran(SPACED)[1] != 0
