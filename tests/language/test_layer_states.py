"""Which layers can be on together: held, latched, for the next key, as the base, by each other."""

import pytest

from matrixgen.model.layer_effects import BASES
from matrixgen.model.layer_states import LayerKeys
from tests.language.whole import completed
from tests.texts import keyboard_in

TWO = "\nlayer one\n  D = 1\n\nlayer two\n  D = 2\n"


def keys_of(layers):
    return LayerKeys(keyboard_in(completed(layers)))


def states(layers):
    """Each set of layers with the keys that are held for it, the layers by name."""
    keys = keys_of(layers)
    return {(keys.names_of(one.layers), "".join(sorted(one.held))) for one in keys.states()}


STATES = {
    "held": ("layer base\n  A = hold layer one" + TWO, {((), ""), (("one",), "A")}),
    "latched": ("layer base\n  A = latch layer one" + TWO, {((), ""), (("one",), "")}),
    "for the next key, held as well": (
        "layer base\n  A = once layer one" + TWO,
        {((), ""), (("one",), ""), (("one",), "A")},
    ),
    "for the next key, which may hold another one on": (
        "layer base\n  A = once layer one\n\nlayer one\n  A = B  B = hold layer two\n\n"
        "layer two\n  C = 1\n",
        {
            *{((), ""), (("one",), ""), (("one",), "A")},
            *{(("two",), "B"), (("one", "two"), "AB")},
            (("one", "two"), "B"),
        },
    ),
    "by a hold, or latched by a tap": (
        "layer base\n  A = tap latch layer one, hold layer two" + TWO,
        {((), ""), (("one",), ""), (("two",), "A"), (("one", "two"), "A")},
    ),
    "as the base": ("layer base\n  A = change base to one" + TWO, {((), ""), (("one",), "")}),
    "one base in place of another": (
        "layer base\n  A = change base to one  B = change base to two" + TWO,
        {((), ""), (("one",), ""), (("two",), "")},
    ),
    "by two others": (
        "layer base\n  A = hold layer one  B = latch layer two"
        + TWO
        + "\nlayer both while one and two are on\n  D = 3\n",
        {((), ""), (("one",), "A"), (("two",), ""), (("one", "two", "both"), "A")},
    ),
    "by others that need others": (
        "layer base\n  A = hold layer one  B = hold layer two  C = hold layer three\n"
        "\nlayer all while both and three are on\n  D = 4\n"
        + TWO
        + "\nlayer three\n  D = 5\n\nlayer both while one and two are on\n  D = 3\n",
        {
            *{((), ""), (("one",), "A"), (("two",), "B"), (("three",), "C")},
            *{(("one", "two", "both"), "AB"), (("one", "three"), "AC"), (("two", "three"), "BC")},
            (("all", "one", "two", "three", "both"), "ABC"),
        },
    ),
}


@pytest.mark.parametrize(("layers", "expected"), STATES.values(), ids=STATES)
def test_the_states_that_keys_bring_about(layers, expected):
    assert states(layers) == expected


def test_a_changed_base_lies_below_all_layers_that_are_on():
    keys = keys_of(
        "layer base\n  A = F1  B = F2  C = F3\n\nlayer low\n  A = 1  B = 2\n\n"
        "layer high\n  A = 3  B = 4  C = 5\n"
    )
    low, high = (1 << keys.number_of[name] for name in ("low", "high"))
    on_high = 1 | high << BASES

    def phrases(layers):
        return [keys.action_of(key, layers).phrase for key in "ABC"]

    assert phrases(1) == ["F1", "F2", "F3"]
    assert phrases(on_high) == ["3", "4", "5"]
    assert phrases(on_high | low) == ["1", "2", "5"]
    assert phrases(1 | low) == ["1", "2", "F3"]
    assert keys.names_of(on_high | low) == ("low", "high")


def test_a_keymap_of_many_latches_is_not_searched_for_ever():
    names = [f"l{number}" for number in range(14)]
    line = "plate\n  line " + " ".join(f"K{number}" for number in range(14)) + "\n"
    cells = "".join(f"  K{number} = latch layer {name}\n" for number, name in enumerate(names))
    layers = "".join(f"layer {name}\n\n" for name in names)
    wiring = "wiring\n  row r0 K0 to K13\n"
    keys = keys_of(f"{line}\n{wiring}\nlayer base\n{cells}\n{layers}")
    assert not keys.has_all_states
    assert keys_of("layer base\n  A = hold layer one" + TWO).has_all_states
