"""A profile that is like another one: what it takes and gives, and what is told of mistakes."""

from __future__ import annotations

import json
from pathlib import Path
from typing import Any

import pytest
from jsonschema import Draft202012Validator

from matrixgen.boards import builtin_names, builtin_profile
from matrixgen.boards.builtin import builtin_document
from matrixgen.boards.laid_over import laid_over
from matrixgen.boards.validate import schema
from matrixgen.record import changed
from matrixgen.resources import resource
from tests.boards.own_files import good, load, marked, only

NAMES = builtin_names()


def written(name: str) -> dict[str, Any]:
    """Return a built-in profile's JSON as it stands in its file."""
    text = (resource("boards") / f"{name}.json").read_text("utf-8")
    document: dict[str, Any] = json.loads(text)
    return document


LAID_OVER = [name for name in NAMES if "like" in written(name)]


def mine(**fields: object) -> dict[str, Any]:
    return {"name": "mine", "title": "Mine", "like": "stick-32u4", **fields}


# --- the built-in ones ---


def test_a_chip_is_described_once() -> None:
    """All profiles of a chip but one lead to that one."""
    by_chip: dict[str, list[str]] = {}
    for name in NAMES:
        by_chip.setdefault(builtin_document(name)["chip"], []).append(name)
    for chip, names in by_chip.items():
        assert len([name for name in names if written(name).get("like") not in names]) == 1, chip


@pytest.mark.parametrize("name", LAID_OVER)
def test_nothing_is_told_again_that_the_other_one_says(name: str) -> None:
    own = written(name)
    for field in own.keys() - {"$schema", "name", "title", "like"}:
        less = {key: value for key, value in own.items() if key != field}
        assert whole(less) != whole(own), field
    for part in ("pins", "sources"):
        for one in own.get(part, ()):
            rest = [pin for pin in own[part] if pin != one]
            some = rest if part == "pins" else {key: own[part][key] for key in rest}
            assert whole(own | {part: some}) != whole(own), one


def whole(document: dict[str, Any]) -> dict[str, Any]:
    return laid_over(document, builtin_document).document


@pytest.mark.parametrize("name", NAMES)
def test_a_file_as_it_stands_is_what_an_editor_is_told_by_the_schema(name: str) -> None:
    assert list(Draft202012Validator(schema()).iter_errors(written(name))) == []


def test_the_schema_asks_all_of_a_profile_that_is_like_no_other() -> None:
    document = written("at90usb162")
    for field in ("chip", "pins", "sources"):
        less = {key: value for key, value in document.items() if key != field}
        assert list(Draft202012Validator(schema()).iter_errors(less)), field


def test_fields_that_may_be_left_out_are_those_that_no_profile_needs() -> None:
    published = schema()
    fields = set(published["properties"]) - {"$schema", "like", "without", "proof"}
    named = set(published["properties"]["without"]["items"]["enum"])
    assert named == fields - set(published["else"]["required"])


# --- a user's own ---


def test_a_profile_like_another_is_that_one_but_for_what_it_says(tmp_path: Path) -> None:
    pins = [
        {"name": "PB1", "label": "D9"},
        {"name": "PB4", "use": "reserved", "duty": "has a buzzer"},
        {"name": "PG0", "use": "reserved", "duty": "is new"},
    ]
    document = mine(ram_bytes=2048, without=["supply_range"], sources={"memory": "me"}, pins=pins)
    profile, findings = load(tmp_path, document)
    stick = builtin_profile("stick-32u4")
    assert findings == [] and profile and stick
    assert [pin.name for pin in profile.pins] == [*(pin.name for pin in stick.pins), "PG0"]
    one, buzzer = profile.pin("PB1"), profile.pin("PB4")
    before = stick.pin("PB1")
    assert before and one == changed(before, label="D9")
    assert buzzer and (buzzer.label, buzzer.use, buzzer.duty) == (None, "reserved", "has a buzzer")
    assert dict(profile.sources) == {**dict(stick.sources), "memory": "me"}
    assert profile.supply != stick.supply
    same = changed(stick, name="mine", title="Mine", proof="not proven", path=profile.path)
    changes = {name: getattr(profile, name) for name in ("ram_bytes", "sources", "pins", "supply")}
    assert profile == changed(same, **changes)


def test_the_page_s_own_profile_is_what_it_says(tmp_path: Path) -> None:
    page = (resource("boards") / "README.md").read_text("utf-8")
    profile, findings = load(tmp_path, page.split("```json\n")[1].split("```")[0])
    assert findings == [] and profile
    light, data = profile.pin("PB0"), profile.pin("18")
    assert light and light.use == "free" and data and data.duty == "is the JTAG port's TCK"


def test_a_whole_profile_reads_as_it_did(tmp_path: Path) -> None:
    profile, findings = load(tmp_path, good())
    bare = builtin_profile("at90usb162")
    assert findings == [] and profile and bare
    assert profile == changed(bare, proof="not proven", path=profile.path)


MISTAKES: dict[str, tuple[dict[str, Any], str, str]] = {
    "like no other": (
        {"like": "stick-32u5"},
        "no built-in controller is called `stick-32u5`",
        '"stick-32u5"',
    ),
    "like a file": (
        {"like": "other.json"},
        "no built-in controller is called `other.json`",
        '"other.json"',
    ),
    "like a number": ({"like": 32}, "`like` is not a text", "32"),
    "without what is needed": (
        {"without": ["chip"]},
        "`without` is not one of `supply_range`",
        '"chip"',
    ),
    "a use that there is not": (
        {"pins": [{"name": "PB4", "use": "spare"}]},
        "`use` is not one of `free`, `shared` and `reserved`",
        '"spare"',
    ),
    "a pin without a name": ({"pins": [{"use": "free"}]}, "the pin lacks `name`", "{"),
    "a new pin without a use": ({"pins": [{"name": "PG0"}]}, "the pin lacks `use`", "{"),
    "pins that are none": ({"pins": 7}, "`pins` is not a list in square brackets", "7"),
    "a pin named twice": (
        {"pins": [{"name": "PB4", "label": "1"}, {"name": "PB4", "use": "free"}]},
        "`PB4` names two pins",
        '"PB4"',
    ),
    "a label that another pin has": (
        {"pins": [{"name": "PB4", "label": "14"}]},
        "`14` names two pins",
        '"14"',
    ),
    "a field misspelt": ({"ram_byte": 7}, "the profile has no field `ram_byte`", '"ram_byte"'),
    "what does not agree with what is taken": (
        {"flash_bytes": 4096},
        "the boot loader takes all of the flash",
        '"stick-32u4"',
    ),
    "a port of another family": (
        {"port": "rp2040"},
        "the port `rp2040` is not for the family `avr`",
        '"rp2040"',
    ),
}


@pytest.mark.parametrize(("fields", "message", "place"), MISTAKES.values(), ids=MISTAKES)
def test_a_mistake_is_told_where_the_profile_makes_it(
    fields: dict[str, Any], message: str, place: str, tmp_path: Path
) -> None:
    profile, findings = load(tmp_path, mine(**fields))
    assert profile is None
    found = next(found for found in findings if found.message.startswith(message))
    assert found.slug == "bad-profile"
    assert marked(tmp_path, found) == place


def test_a_field_given_twice_is_told_of(tmp_path: Path) -> None:
    text = json.dumps(mine(ram_bytes=2048), indent=2)
    text = text.replace('"ram_bytes"', '"ram_bytes": 1024,\n  "ram_bytes"')
    assert only(load(tmp_path, text)[1]).message == "`ram_bytes` is given twice"


def test_a_file_that_is_no_profile_is_still_not_quoted(tmp_path: Path) -> None:
    text = json.dumps({"name": "secret", "title": "of nobody's business"})
    found = only(load(tmp_path, text)[1])
    assert found.slug == "unreadable-profile" and "secret" not in found.message


# --- what was tried is not what a profile says ---


@pytest.mark.parametrize("name", [name for name in NAMES if builtin_document(name)["port"]])
def test_a_copy_of_a_profile_is_told_as_not_proven(name: str, tmp_path: Path) -> None:
    copies = [written(name), builtin_document(name), mine(like=name)]
    for copy in copies:
        for new_name in ("mine", name):
            profile, findings = load(tmp_path, copy | {"name": new_name, "proof": "emulated"})
            assert findings == [] and profile and profile.proof == "not proven"
