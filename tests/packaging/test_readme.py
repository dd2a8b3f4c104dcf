"""The README's files and commands do what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.main import main
from tests.examples.shipped import NAMES, example
from tests.pages import CHECKOUT, PAGES, anchors, page

README = page("README.md")
COMMANDS_PAGE = page("matrixgen/cli/README.md")
EXAMPLES = page("examples/README.md")


def fenced(text: str) -> list[str]:
    """Return the .keys blocks of a page, with the blanks before them taken off."""
    blocks = re.findall(r"^( *)```keys\n(.*?)^ *```", text, re.MULTILINE | re.DOTALL)
    return [re.sub(f"^{blanks}", "", block, flags=re.MULTILINE) for blanks, block in blocks]


def test_the_walk_s_file_checks_clean_builds_and_grows_its_layer(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.chdir(tmp_path)
    first, second = fenced(README)
    Path("darkroom.keys").write_text(first, "utf-8")
    assert main(["check", "darkroom.keys"]) == 0
    last = "ready to build: no findings"
    assert last in README and capsys.readouterr().out.splitlines()[-1] == last
    assert main(["build", "darkroom.keys"]) == 0
    Path("darkroom.keys").write_text(first + "\n" + second, "utf-8")
    assert main(["check", "darkroom.keys"]) == 0
    assert main(["build", "darkroom.keys"]) == 0
    assert {path.name for path in Path("darkroom").iterdir()} == {
        "darkroom.hex",
        "firmware",
        "manifest.json",
        "pins.csv",
        "pins.md",
        "sheet.html",
    }


@pytest.mark.parametrize(
    ("there", "instead", "slug"),
    [
        ("PD7", "PD4", "pin-used-twice"),
        ("PD4   7 Up", "PD4   7", "key-on-no-column"),
        ("toward columns", "toward rows", "diode-against-scan"),
    ],
)
def test_each_mistake_that_the_walk_asks_for_is_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], there: str, instead: str, slug: str
) -> None:
    words = " ".join(README.split())
    assert "Write `PD4` instead of `PD7`" in words and "write `toward rows`" in words
    path = tmp_path / "darkroom.keys"
    path.write_text(fenced(README)[0].replace(there, instead), "utf-8")
    assert main(["check", str(path)]) == 1
    assert f"error[{slug}]" in capsys.readouterr().out


def test_every_command_has_its_row() -> None:
    rows = re.findall(r"^\| `matrixgen ([\w-]+)", COMMANDS_PAGE, re.MULTILINE)
    assert sorted(rows) == sorted(COMMANDS)


@pytest.mark.parametrize("command", COMMANDS)
def test_the_row_of_a_command_names_each_of_its_options(
    command: str, capsys: pytest.CaptureFixture[str]
) -> None:
    assert main([command, "--help"]) == 0
    options = set(re.findall(r"(?<![\w-])--[a-z][a-z-]+", capsys.readouterr().out)) - {"--help"}
    row = re.search(rf"^\| `matrixgen {command}\b.*$", COMMANDS_PAGE, re.MULTILINE)
    assert row is not None
    told = set(re.findall(r"--[a-z][a-z-]+", row[0]))
    assert told <= options, "an option that there is not"
    assert options - told <= SAME_AS_SHORT, "an option that the row lacks"


SAME_AS_SHORT = {"--out"}
"""What a row tells under its short name, `-o`."""


def test_the_board_table_is_what_the_profiles_say() -> None:
    rows = re.findall(r"^\| `([\w-]+)` \| ([^|]+) \| (\d+) \| ([^|]+) \|$", README, re.MULTILINE)
    found = [(name, chip.strip(), int(pins), proof.strip()) for name, chip, pins, proof in rows]
    said = []
    for name in builtin_names():
        profile = builtin_profile(name)
        assert profile is not None
        said.append((name, profile.chip, len(profile.usable_pins), profile.proof))
    assert found == said


@pytest.mark.parametrize("name", PAGES)
def test_every_file_and_heading_that_a_page_links_to_is_there(name: str) -> None:
    for file, heading in re.findall(r"\]\(([^)#]*)#?([^)]*)\)", page(name)):
        target = (CHECKOUT / name).parent / file if file else CHECKOUT / name
        assert target.exists(), file
        assert not heading or heading in anchors(target.read_text("utf-8")), f"{file}#{heading}"


def test_the_readme_leads_to_every_page() -> None:
    linked = {(CHECKOUT / name).resolve() for name in re.findall(r"\]\(([^)#]+)", README)}
    for name in set(PAGES) - {"README.md", "templates/firmware/bench/README.md"}:
        assert CHECKOUT / name in linked, name


def test_the_readme_is_short_enough_to_be_read() -> None:
    """The boards are a table to look things up in, and the commands and limits have their pages."""
    assert len(README.split()) <= 2000


def test_every_example_has_its_row_with_the_number_of_its_keys() -> None:
    rows = re.findall(r"^\| \[([\w-]+)\]\([^)]+\) \| (\d+) \|", EXAMPLES, re.MULTILINE)
    assert sorted(rows) == [(name, str(len(example(name).keyboard.keys))) for name in NAMES]
