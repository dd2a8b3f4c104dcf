"""File names, subjects and settings of a stranger: neither git nor we take one for an order."""

from __future__ import annotations

import json
import re
import subprocess

import pytest

from tests.git.test_hooks import commands, hooks, ran
from tests.merge.test_cases import BASE, edited
from tests.pages import CHECKOUT
from tests.texts import GOOD

__all__ = ["ran"]

NAMES = ("--fix.keys", "-h.keys", "--help.keys", "--.keys", "-.keys", "-C.keys", "a\x0bb\x1fc.keys")
"""Names that a command line takes for options, and one that ends lines for Python."""

CHANGED = edited(("K2 = copy", "K2 = Tab"))


@pytest.fixture
def strange(repository):
    """Two revisions of files with such names, and of one that has a plain name."""
    for text in (BASE, CHANGED):
        for name in (*NAMES, "plain.keys"):
            repository.write(name, text)
        repository.commit("A change")
    return repository


@pytest.mark.parametrize("range_", ["HEAD~1 HEAD", "HEAD~1"])
def test_git_diff_goes_on_whatever_a_file_is_called(strange, program, range_):
    assert program("git-setup").status == 0
    shown = strange("diff", *range_.split())
    assert shown.count("1 key on layer base") == len(NAMES) + 1


def test_git_show_and_blame_go_on_whatever_a_file_is_called(strange, program):
    assert program("git-setup").status == 0
    assert strange("show", "HEAD").count("K2") >= len(NAMES) + 1
    for name in NAMES:
        strange.write(name, BASE)
        assert "K2 = copy" in strange("blame", "--", name), "a file of the work tree, by its name"


def test_without_matrixgen_git_shows_lines_whatever_a_file_is_called(strange, program):
    assert program("git-setup").status == 0
    driver = strange("config", "diff.matrixgen.command").replace("import matrixgen", "import no")
    strange("config", "diff.matrixgen.command", driver.strip())
    for name in NAMES:
        strange.write(name, BASE)
        assert "K2 = copy" in strange("diff", "HEAD", "--", name)
        assert "K2 = copy" in strange("blame", "--", name)


@pytest.mark.parametrize("name", NAMES)
def test_history_and_diff_take_such_a_name(strange, program, name):
    told = program("history", "--", name)
    assert (told.status, told.err) == (0, "")
    assert len(told.out.splitlines()) == 2
    compared = program("diff", "--", f"HEAD~1:{name}", name)
    assert (compared.status, compared.err) == (1, "")


@pytest.mark.parametrize("name", NAMES)
def test_a_merge_takes_such_a_name(repository, program, name):
    assert program("git-setup").status == 0
    repository.save(name, BASE, "The pad")
    repository("checkout", "-q", "-b", "side")
    repository.save(name, CHANGED, "A cell")
    repository("checkout", "-q", "main")
    repository.save(name, edited(("5 ms", "6 ms")), "The debounce")
    repository("merge", "-q", "side")
    assert "6 ms" in repository.read(name) and "K2 = Tab" in repository.read(name)


def test_the_workflow_checks_files_of_such_names(ran, repository, program):
    """All of them at once: one that is taken for an option takes the others' findings along."""
    for name in NAMES:
        repository.write(name, GOOD.replace("on PB1", "on PB0"))
    assert ran(None)[0] != 0
    report = json.loads((repository.folder / "keyboards.sarif").read_text())
    found = [one["ruleId"] for one in report["runs"][0]["results"]]
    assert found == ["pin-used-twice"] * len(NAMES)
    for name in NAMES:
        repository.write(name, GOOD.replace("line A B", "line      A       B"))
    assert ran(None) == [0, 123], "what `xargs` gives where a command failed"


@pytest.mark.parametrize("name", NAMES)
def test_a_hook_takes_such_a_name(program, name):
    program.write(name, GOOD.replace("on PB1", "on PB0"))
    for hook, found in (("matrixgen-check", "pin-used-twice"), ("matrixgen-fmt", "")):
        _, *words = hooks()[hook]["entry"].split()
        args = hooks()[hook].get("args", [])
        args = json.loads(args) if isinstance(args, str) else args
        ran = program(*words, *args, name)
        assert ran.status in (0, 1) and found in ran.out
        assert "usage" not in ran.out + ran.err


def test_every_command_that_takes_files_of_git_ends_its_options_first():
    text = (CHECKOUT / "examples" / "check-on-pull-request.yml").read_text("utf-8")
    assert len(commands()) == len(re.findall(r"xargs .* --( >.*)?$", text, re.MULTILINE)) == 2


SETTINGS = {
    "color.ui": "always",
    "core.fsmonitor": "{program}",
    "core.pager": "{program}",
    "core.quotePath": "true",
    "diff.external": "{program}",
    "diff.noprefix": "true",
    "diff.relative": "true",
    "diff.renames": "false",
    "format.pretty": "oneline",
    "gpg.program": "{program}",
    "i18n.logOutputEncoding": "UTF-16",
    "log.date": "relative",
    "log.decorate": "full",
    "log.diffMerges": "off",
    "log.showRoot": "false",
    "log.showSignature": "true",
    "pager.log": "{program}",
}


@pytest.fixture
def trapped(repository, tmp_path_factory):
    """A repository whose commits are signed, and a program that leaves a trace when it is run."""
    folder = tmp_path_factory.mktemp("trap")
    trace, script = folder / "trace", folder / "program"
    signing = folder / "sign"
    script.write_text(f'#!/bin/sh\necho "$0 $@" >> {trace}\nexit 1\n')
    signing.write_text(
        "#!/bin/sh\ncat > /dev/null\necho '[GNUPG:] SIG_CREATED ' >&2\n"
        "echo '-----BEGIN PGP SIGNATURE-----'\necho abc\necho '-----END PGP SIGNATURE-----'\n"
    )
    for one in (script, signing):
        one.chmod(0o755)
    repository.write("below/old.keys", BASE)
    repository("config", "gpg.program", str(signing))
    repository("config", "commit.gpgSign", "true")
    repository.commit("Größe der Tasten")
    repository("mv", "below/old.keys", "below/pad.keys")
    repository.commit("Renamed")
    repository.save("below/pad.keys", CHANGED, "One key \x01 more \x1f\x02 :100644 done")
    return repository, script, trace


def test_the_commits_of_these_tests_are_signed(trapped):
    assert "BEGIN PGP SIGNATURE" in trapped[0]("cat-file", "commit", "HEAD")


@pytest.mark.parametrize("setting", [*SETTINGS, "all of them"])
def test_no_setting_of_a_repository_changes_its_history_or_runs_a_program(
    trapped, program, setting
):
    repository, script, trace = trapped
    before = program("history", "below/pad.keys", "--json")
    for name in SETTINGS if setting == "all of them" else (setting,):
        repository("config", name, SETTINGS[name].format(program=script))
    if setting == "gpg.program":
        repository("config", "log.showSignature", "true")
    after = program("history", "below/pad.keys", "--json")
    assert not trace.exists(), trace.read_text()
    assert (after.status, after.out, after.err) == (0, before.out, "")
    revisions = json.loads(after.out)["revisions"]
    assert [one["subject"] for one in revisions] == [
        "One key \x01 more \x1f\x02 :100644 done",
        "Renamed",
        "Größe der Tasten",
    ]
    assert [one["path"] for one in revisions] == ["below/pad.keys"] * 2 + ["below/old.keys"]
    compared = program("diff", "HEAD~1:below/pad.keys", "below/pad.keys")
    assert (compared.status, compared.err) == (1, "")
    assert not trace.exists(), trace.read_text()


@pytest.mark.parametrize(
    "name",
    ["GIT_ICASE_PATHSPECS", "GIT_GLOB_PATHSPECS", "GIT_NOGLOB_PATHSPECS", "GIT_EXTERNAL_DIFF"],
)
def test_no_variable_changes_the_history(trapped, program, monkeypatch, name):
    before = program("history", "below/pad.keys")
    monkeypatch.setenv(name, "1")
    assert program("history", "below/pad.keys") == before


@pytest.mark.parametrize("subject", ["", "\x01", "\x1f", ":", ":1 2 3 4 M", "\ufeff\u2028\x85"])
def test_no_subject_shortens_the_history(repository, program, subject):
    repository.save("pad.keys", BASE, "The pad")
    repository.write("pad.keys", CHANGED)
    repository("add", "-A")
    tree = repository("write-tree").strip()
    made = subprocess.run(
        ["git", "commit-tree", tree, "-p", "HEAD"],
        input=subject.encode(),
        cwd=repository.folder,
        capture_output=True,
        check=True,
    )
    repository("reset", "-q", "--hard", made.stdout.decode().strip())
    ran = program("history", "pad.keys", "--json")
    assert (ran.status, ran.err) == (0, "")
    assert [one["work"] for one in json.loads(ran.out)["revisions"]] == ["reflash", "new"]
