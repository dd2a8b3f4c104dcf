"""The README's files and commands do what it says."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.cli.commands import COMMANDS
from matrixgen.cli.main import main
from tests.examples.shipped import NAMES, example

CHECKOUT = Path(__file__).parents[2]
README = (CHECKOUT / "README.md").read_text("utf-8")
PAGES = ("README.md", "DEVELOPERS.md", "grammar/README.md", "examples/README.md")
EXAMPLES = (CHECKOUT / "examples" / "README.md").read_text("utf-8")


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
    last = "can be built, no problems"
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
        ("PD4  7 Up", "PD4  7", "key-on-no-column"),
        ("toward columns", "toward rows", "diode-against-scan"),
    ],
)
def test_each_mistake_that_the_walk_asks_for_is_found(
    tmp_path: Path, capsys: pytest.CaptureFixture[str], there: str, instead: str, slug: str
) -> None:
    words = " ".join(README.split())
    assert "Write `PD4` where `PD7` stands" in words and "write `toward rows`" in words
    path = tmp_path / "darkroom.keys"
    path.write_text(fenced(README)[0].replace(there, instead), "utf-8")
    assert main(["check", str(path)]) == 1
    assert f"error[{slug}]" in capsys.readouterr().out


def test_every_command_has_its_row() -> None:
    assert set(re.findall(r"^\| `matrixgen ([\w-]+)", README, re.MULTILINE)) == set(COMMANDS)


def test_the_board_table_is_what_the_profiles_say() -> None:
    rows = re.findall(r"^\| `([\w-]+)` \| ([^|]+) \| (\d+) \| ([^|]+) \|$", README, re.MULTILINE)
    found = [(name, chip.strip(), int(pins), proof.strip()) for name, chip, pins, proof in rows]
    said = []
    for name in builtin_names():
        profile = builtin_profile(name)
        assert profile is not None
        said.append((name, profile.chip, len(profile.usable_pins), profile.proof))
    assert found == said


@pytest.mark.parametrize(
    "page", ["README.md", "DEVELOPERS.md", "grammar/README.md", "examples/README.md"]
)
def test_every_file_that_a_page_links_to_is_there(page: str) -> None:
    text = (CHECKOUT / page).read_text("utf-8")
    for target in re.findall(r"\]\(([^)#]+)\)", text):
        assert ((CHECKOUT / page).parent / target).exists(), target


def test_every_example_has_its_row_with_the_number_of_its_keys() -> None:
    rows = re.findall(r"^\| \[([\w-]+)\]\([^)]+\) \| (\d+) \|", EXAMPLES, re.MULTILINE)
    assert sorted(rows) == [(name, str(len(example(name).keyboard.keys))) for name in NAMES]
