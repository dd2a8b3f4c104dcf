"""A warning that has a new name can still be allowed by its old one, which `--fix` replaces."""

from __future__ import annotations

import pytest

from matrixgen.cli.main import main
from matrixgen.jobs.catalogue import catalogue
from matrixgen.jobs.examine import examine_text
from matrixgen.model import Severity
from matrixgen.model.old_slugs import OLD_SLUGS
from tests.program import Program
from tests.texts import good_on

SECOND = good_on("atmega32u4\n  allow      pin-with-second-duty PE2", "PD0", "PE2", "PB1")


def test_an_old_name_is_of_a_warning_that_there_is() -> None:
    for old, new in OLD_SLUGS.items():
        assert old not in catalogue()
        assert catalogue()[new].severity is Severity.WARNING


def test_an_old_name_allows_as_the_new_one_does(tmp_path) -> None:
    examined = examine_text("pad.keys", SECOND, tmp_path)
    assert [found.slug for found in examined.allowed] == ["pin-with-second-function"]
    (told,) = examined.findings
    assert (told.slug, told.is_error) == ("allow-by-old-name", False)


def test_check_fix_writes_the_new_name_and_nothing_else(program: Program) -> None:
    name = program.write("pad.keys", SECOND)
    assert program("check", "--fix", name).status == 0
    new = SECOND.replace("second-duty", "second-function")
    assert (program.folder / "pad.keys").read_text("utf-8") == new
    assert "no findings" in program("check", name).out


@pytest.mark.parametrize("old", OLD_SLUGS)
def test_explain_has_the_page_of_an_old_name(old: str, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["explain", old]) == 0
    assert f"warning[{OLD_SLUGS[old]}]" in capsys.readouterr().out


def test_a_finding_can_be_fixed_by_its_old_name(program: Program) -> None:
    name = program.write("pad.keys", SECOND)
    ran = program("check", "--fix-also", "line-without-keys", name)
    assert ran.status == 0 and "no finding is called" not in ran.err
