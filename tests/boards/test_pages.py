"""The pages on profiles: their JSON examples are wrong, and what to do instead is right."""

import json
import re

import pytest
from jsonschema import Draft202012Validator

from matrixgen.boards.problems import PROBLEMS
from matrixgen.boards.validate import schema


def examples(page: str) -> list[str]:
    found = re.findall(r"```json\n(.*?)```", page, re.S)
    assert len(found) == 2
    return found


def test_the_unreadable_example_is_no_json_and_the_other_is():
    wrong, right = examples(PROBLEMS["unreadable-profile"].page)
    with pytest.raises(json.JSONDecodeError):
        json.loads(wrong)
    json.loads(right)


def test_the_bad_example_breaks_the_schema_of_a_pin_and_the_other_does_not():
    of_pin = Draft202012Validator({"$defs": schema()["$defs"], "$ref": "#/$defs/pin"})
    wrong, right = map(json.loads, examples(PROBLEMS["bad-profile"].page))
    assert not of_pin.is_valid(wrong)
    assert of_pin.is_valid(right)
