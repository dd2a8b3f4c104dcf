"""The keyboards that the tests of this folder type on."""

from __future__ import annotations

from matrixgen.model import Keyboard
from matrixgen.model.actions import (
    Action,
    ChangeBase,
    FirstSecond,
    HoldLayer,
    Instead,
    InTurn,
    LatchLayer,
    Media,
    Nothing,
    OnceLayer,
    OnceModifiers,
    Pause,
    Pointer,
    Press,
    StartBootLoader,
    Struck,
    TapHold,
    Typed,
    UnlatchLayers,
    WithModifier,
)
from matrixgen.usages import media
from matrixgen.usages.key_stroke import KeyStroke
from matrixgen.usages.pointer import pointer_usage_of
from tests.firmware.build_model import keyboard

LEFT_CTRL, LEFT_SHIFT = 0x01, 0x02
CTRL, SHIFT = 0x11, 0x22
"""Either side of them."""

TEXT = Typed("aAb", (KeyStroke(0x04), KeyStroke(0x04, LEFT_SHIFT), KeyStroke(0x05)))
TWO = (Struck(KeyStroke(0x0E, LEFT_CTRL)), Struck(KeyStroke(0x06, LEFT_CTRL)))


def small_pad() -> Keyboard:
    """Eleven keys and an empty crossing; layers that are held and latched across each other."""
    rows: list[list[str | None]] = [
        ["A", "B", "C", None],
        ["D", "E", "F", "G"],
        ["Sym", "Num", "Shift", "Both"],
    ]
    base: dict[str, Action] = {
        "A": Press(0x04),
        "B": Press(0x05),
        "C": Press(0x06, LEFT_CTRL),
        "D": Press(0x04),  # the same usage twice
        "E": Press(0x06),
        "F": Press(0xDF),  # the last bit of the report
        "G": Nothing(),
        "Sym": HoldLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Shift": Press(0, LEFT_SHIFT),
        "Both": HoldLayer("symbols"),
    }
    symbols: dict[str, Action] = {
        "A": Press(0x1E, LEFT_SHIFT),
        "B": HoldLayer("numbers"),
        "Num": LatchLayer("symbols"),
        "Both": Press(0x04),
    }
    numbers: dict[str, Action] = {
        "A": Press(0x59),
        "D": Nothing(),
        "F": LatchLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Sym": HoldLayer("symbols"),
    }
    return keyboard(rows, {"base": base, "symbols": symbols, "numbers": numbers})


DELETE = WithModifier(Press(0x2A), (Instead(SHIFT, Press(0x4C)),))
BY_SEVERAL = WithModifier(
    Press(0x37),
    (
        Instead(SHIFT, Press(0x1E, LEFT_SHIFT)),  # with the modifier that it is chosen by
        Instead(0x02, Press(0x24)),  # by one side, and so before the other
        Instead(CTRL | SHIFT, Press(0x25, LEFT_CTRL)),
        Instead(CTRL, Media(0x0C, 0xE9)),
    ),
)


def timed_pad(*, in_turn: bool = False, together: bool = False) -> Keyboard:
    """Twenty-eight keys that know time and other keys, in every combination that fits.

    With two more, that type `in_turn`, what others do waits at times; some keys may be one action
    `together`.
    """
    rows: list[list[str | None]] = [
        ["A", "S", "D", "F"],
        ["J", "K", "L", "M"],
        ["OnceShift", "OnceBoth", "OnceNum", "Base"],
        ["Sym", "Num", "Shift", "Tap"],
        ["Dead", "Sleep", "N", "Off"],
        ["Del", "Dot", "TapDel", "Right"],
        ["First", "Twice", "Thrice", "Soon"],
        *([["Two", "Text", "Move", "Click"]] if in_turn else []),
    ]
    base: dict[str, Action] = {
        "A": TapHold(Press(0x04), HoldLayer("symbols")),
        "S": TapHold(Press(0x16), Press(0, LEFT_CTRL), decided_by="press", after_ms=150, roll_ms=0),
        "D": TapHold(Press(0x07), Press(0, LEFT_SHIFT), decided_by="time", roll_ms=60),
        "F": TapHold(Press(0x09), OnceLayer("numbers"), after_ms=120, roll_ms=30, other_hand=True),
        "J": Press(0x0D),
        "K": Press(0x0E, LEFT_SHIFT),
        "L": Press(0x0F),
        "M": Media(0x0C, 0xE9),
        "OnceShift": OnceModifiers(LEFT_SHIFT),
        "OnceBoth": OnceModifiers(LEFT_CTRL | LEFT_SHIFT),
        "OnceNum": OnceLayer("numbers"),
        "Base": ChangeBase("other"),
        "Sym": LatchLayer("symbols"),
        "Num": HoldLayer("numbers"),
        "Shift": Press(0, LEFT_SHIFT),
        "Tap": TapHold(OnceModifiers(LEFT_SHIFT), HoldLayer("numbers"), roll_ms=0),
        "Dead": Nothing(),
        "Off": UnlatchLayers(),
        "Sleep": Media(0x01, 0x82),
        "N": TapHold(Media(0x0C, 0xE2), Media(0x0C, 0xE9), decided_by="press"),
        "Del": DELETE,
        "Dot": BY_SEVERAL,
        "TapDel": TapHold(DELETE, Press(0, LEFT_CTRL), after_ms=150, roll_ms=0),
        "Right": Press(0, LEFT_SHIFT << 4),
        "First": FirstSecond(Press(0x14), Press(0x1A, LEFT_CTRL)),
        "Twice": FirstSecond(HoldLayer("numbers"), LatchLayer("symbols"), within_ms=150),
        "Thrice": FirstSecond(OnceModifiers(LEFT_SHIFT), Press(0, LEFT_SHIFT), DELETE, 120),
        "Soon": FirstSecond(Media(0x0C, 0xE9), Nothing(), ChangeBase("other"), within_ms=60),
    }
    if in_turn:
        base |= {"Two": InTurn(TWO), "Text": InTurn((TEXT, Pause(20), *TWO))}
        base |= {"Move": pointer_key("PointerRight"), "Click": pointer_key("Button1")}
    other: dict[str, Action] = {"J": Press(0x1E), "Base": ChangeBase("base"), "M": Press(0x10)}
    symbols: dict[str, Action] = {"J": Press(0x1F), "L": OnceLayer("numbers"), "A": Press(0x04)}
    numbers: dict[str, Action] = {
        "J": Press(0x20),
        "K": TapHold(Press(0x0E), Press(0, LEFT_CTRL), decided_by="press", roll_ms=0),
        "First": Press(0x1E),
        "OnceNum": OnceLayer("symbols"),
    }
    both: dict[str, Action] = {"J": Press(0x21), "S": Press(0x16)}
    three: dict[str, Action] = {"K": Press(0x22)}
    stack = {"base": base, "symbols": symbols, "numbers": numbers, "both": both}
    stack |= {"other": other, "three": three}
    needs = {"both": ("symbols", "numbers"), "three": ("other", "symbols")}
    joined = [("J K", Press(0x29), 40), ("A S", HoldLayer("numbers"), 30), ("D L", Nothing(), 60)]
    sets = dict.fromkeys(stack, joined) if together else {}
    return keyboard(rows, stack, needs=needs, once_ms=700, press_ms=2, together=sets)


def together_pad(*, in_turn: bool = True) -> Keyboard:
    """Twenty keys, most of them in sets that overlap, with all else that they meet.

    Their layers lie across each other, and so do the sets on them.
    """
    rows: list[list[str | None]] = [
        ["A", "S", "D", "F", "G"],
        ["J", "K", "L", "M", "N"],
        ["Sym", "Num", "Shift", "OnceShift", "Base"],
        ["P", "Q", "R", "T", "Text"],
    ]
    base: dict[str, Action] = {
        "A": Press(0x04),
        "S": TapHold(Press(0x16), Press(0, LEFT_SHIFT), after_ms=150),
        "D": Press(0x07, LEFT_CTRL),
        "F": Media(0x0C, 0xE2),
        "G": Nothing(),
        "J": Press(0x0D),
        "K": Press(0x0E),
        "L": TapHold(Press(0x0F), HoldLayer("symbols"), decided_by="press", roll_ms=0),
        "M": OnceLayer("numbers"),
        "N": FirstSecond(Press(0x11), Press(0x12, LEFT_CTRL), LatchLayer("numbers"), 160),
        "Sym": HoldLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Shift": Press(0, LEFT_SHIFT),
        "OnceShift": OnceModifiers(LEFT_SHIFT),
        "Base": ChangeBase("other"),
        "P": Press(0x13),
        "Q": DELETE,
        "R": TapHold(Press(0x15), Press(0, LEFT_CTRL), decided_by="time", other_hand=True),
        "T": UnlatchLayers(),
        "Text": InTurn((TEXT,)) if in_turn else Press(0x17),
    }
    symbols: dict[str, Action] = {"J": Press(0x1F), "P": Press(0x20), "S": LatchLayer("symbols")}
    numbers: dict[str, Action] = {"K": Press(0x21), "L": Nothing(), "Base": Press(0x22)}
    other: dict[str, Action] = {"A": Press(0x23), "Base": ChangeBase("base"), "R": Press(0x24)}
    both: dict[str, Action] = {"D": Press(0x25), "T": UnlatchLayers()}
    typed: Action = InTurn(TWO) if in_turn else Press(0x2F)
    sets: dict[str, list[tuple[str, Action, int]]] = {
        "base": [
            ("K J", Press(0x29), 40),
            ("J K L", HoldLayer("symbols"), 60),
            ("J K L M", Press(0x2A), 20),
            ("K L", OnceModifiers(LEFT_SHIFT), 40),
            ("A S", TapHold(Press(0x2B), HoldLayer("numbers"), after_ms=120), 30),
            ("A S D", Press(0x2C, LEFT_SHIFT), 30),
            ("A F", Media(0x0C, 0xE9), 200),
            ("P Q", typed, 50),
            ("Q R", TapHold(OnceLayer("symbols"), Press(0, LEFT_CTRL), decided_by="press"), 50),
            ("G T", Nothing(), 50),
            ("Shift N", LatchLayer("symbols"), 40),
            ("Sym Num", ChangeBase("other"), 80),
            ("Text N", Press(0x2D), 40),
            ("P N", DELETE, 40),
            ("T K", TapHold(DELETE, Press(0, LEFT_SHIFT), after_ms=100), 40),
        ],
        "symbols": [
            ("J K", Press(0x2E), 100),
            ("D F", UnlatchLayers(), 40),
            ("A S", TapHold(Press(0x2F), Press(0, LEFT_CTRL), decided_by="time"), 40),
        ],
        "numbers": [("A S", Press(0x30), 30), ("M N", OnceLayer("symbols"), 40)],
        "other": [("A S", Press(0x31), 60), ("J K", Press(0x32), 20)],
        "both": [
            ("J K", Press(0x33), 40),
            ("A F G", TapHold(Press(0x34), Nothing(), after_ms=60), 10),
        ],
    }
    stack = {"base": base, "symbols": symbols, "numbers": numbers, "other": other, "both": both}
    needs = {"both": ("symbols", "other")}
    return keyboard(rows, stack, needs=needs, once_ms=700, together=sets)


def layered_pairs_pad() -> Keyboard:
    """Six keys in sets on two layers, one of which a set holds on; a tap and a hold."""
    base: dict[str, Action] = {name: Press(0x04 + n) for n, name in enumerate("ABCDEF")}
    sets: dict[str, list[tuple[str, Action, int]]] = {
        "base": [
            ("A B", TapHold(Press(0x29), Press(0, LEFT_SHIFT)), 40),
            ("A B C", HoldLayer("more"), 40),
            ("C D", OnceModifiers(LEFT_CTRL), 30),
        ],
        "more": [("D E", Press(0x2A), 40)],
    }
    stack: dict[str, dict[str, Action]] = {"base": base, "more": {"F": Press(0x1E)}}
    return keyboard([["A", "B", "C"], ["D", "E", "F"]], stack, together=sets)


def pairs_pad() -> Keyboard:
    """Six keys in sets, one layer, and nothing else that knows time."""
    base: dict[str, Action] = {name: Press(0x04 + n) for n, name in enumerate("ABCDEF")}
    sets: list[tuple[str, Action, int]] = [
        ("A B", Press(0x29), 40),
        ("C B A", Press(0x2A), 40),
        ("C D", Press(0, LEFT_SHIFT), 200),
        ("A B C F", Nothing(), 70),
        ("A F", Press(0x2B), 60),
        ("A E", Press(0x2C), 60),
    ]
    return keyboard([["A", "B", "C"], ["D", "E", "F"]], {"base": base}, together={"base": sets})


def turn_pad() -> Keyboard:
    """Fifteen keys of which many type one thing after the other, with all else that they meet."""
    rows: list[list[str | None]] = [
        ["A", "B", "C", "Shift", "CtrlA"],
        ["Text", "Two", "Slow", "Long", "Lone"],
        ["TapText", "OnceShift", "OnceSym", "Sym", "M"],
        ["Twice", None, None, None, None],
    ]
    base: dict[str, Action] = {
        "A": Press(0x04),
        "B": Press(0x05),
        "C": TapHold(Press(0x06), Press(0, LEFT_CTRL), decided_by="press"),
        "Shift": Press(0, LEFT_SHIFT),
        "CtrlA": Press(0x04, LEFT_CTRL),
        "Text": InTurn((TEXT,)),
        "Two": InTurn(TWO),
        "Slow": InTurn((*TWO, Pause(50), TEXT)),
        "Long": InTurn((TWO[0], Pause(630), TWO[1])),
        "Lone": InTurn((Struck(KeyStroke(0, LEFT_SHIFT)), Struck(KeyStroke(0x28)))),
        "TapText": TapHold(InTurn((TEXT,)), HoldLayer("symbols"), after_ms=150),
        "OnceShift": OnceModifiers(LEFT_SHIFT),
        "OnceSym": OnceLayer("symbols"),
        "Sym": HoldLayer("symbols"),
        "M": Media(0x0C, 0xE9),
        "Twice": FirstSecond(InTurn((TEXT,)), InTurn(TWO), Press(0x05), 150),
    }
    symbols: dict[str, Action] = {"A": InTurn(TWO), "Text": Press(0x1F), "B": InTurn((*TWO, TEXT))}
    return keyboard(rows, {"base": base, "symbols": symbols}, once_ms=700)


def typist_pad() -> Keyboard:
    """Nine keys of which some type in turn, and none knows time, layers or media keys.

    Their pace is slower than one of the waits.
    """
    base: dict[str, Action] = {
        "A": Press(0x04),
        "CtrlA": Press(0x04, LEFT_CTRL),
        "Shift": Press(0, LEFT_SHIFT),
        "Text": InTurn((TEXT,)),
        "With": WithModifier(InTurn((TEXT,)), (Instead(SHIFT, Press(0x4C)),)),
        "Either": WithModifier(Press(0x2A), (Instead(SHIFT, InTurn(TWO)), Instead(CTRL, Press(4)))),
        "Two": InTurn((*TWO, TEXT)),
        "Long": InTurn((TWO[0], Pause(2550), TWO[1])),
        "Short": InTurn((TWO[0], Pause(10), TWO[1])),
    }
    return keyboard([[*base]], {"base": base}, pace_ms=15)


def modifier_pad() -> Keyboard:
    """Ten keys: modifiers, and what goes by them, and no key that knows time or other keys."""
    base: dict[str, Action] = {
        "A": Press(0x04),
        "Delete": Press(0x4C),
        "CtrlA": Press(0x04, LEFT_CTRL),
        "Left": Press(0, LEFT_SHIFT),
        "Right": Press(0, LEFT_SHIFT << 4),
        "Ctrl": Press(0, LEFT_CTRL),
        "Del": DELETE,
        "Dot": BY_SEVERAL,
        "Volume": WithModifier(Media(0x0C, 0xE9), (Instead(0x01, Media(0x0C, 0xE2)),)),
        "M": Media(0x0C, 0xE9),
    }
    return keyboard([[*base]], {"base": base})


def press_pad() -> Keyboard:
    """Six keys that mean something else when pressed again, and no key with a tap and a hold."""
    base: dict[str, Action] = {
        "A": Press(0x04),
        "Shift": Press(0, LEFT_SHIFT),
        "CtrlA": Press(0x04, LEFT_CTRL),
        "Two": FirstSecond(Press(0x14), Press(0x1A)),
        "Three": FirstSecond(Press(0x14), Press(0, LEFT_CTRL), Press(0x05, LEFT_SHIFT), 100),
        "Layer": FirstSecond(HoldLayer("more"), LatchLayer("more"), within_ms=200),
        "More": HoldLayer("more"),
    }
    more: dict[str, Action] = {
        "A": Press(0x1E),
        "Two": FirstSecond(Press(0x1F), Press(0x20)),
        "Three": Press(0x21),
        "Layer": LatchLayer("more"),
    }
    return keyboard([[*base]], {"base": base, "more": more})


def single_pad() -> Keyboard:
    """One key of two meanings, modifiers that wait for ever, layers that are on with others.

    Its switches chatter for long, but for less than makes a hold.
    """
    rows: list[list[str | None]] = [["A", "S", "J", "OnceSym"], ["Once", "Sym", "Num", None]]
    base: dict[str, Action] = {
        "A": TapHold(Press(0x04), HoldLayer("symbols"), after_ms=420),
        "S": Press(0x16),
        "J": Press(0x0D),
        "Once": OnceModifiers(LEFT_SHIFT),
        "Sym": HoldLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "OnceSym": OnceLayer("symbols"),
    }
    symbols: dict[str, Action] = {"S": Press(0x1F), "Once": OnceModifiers(LEFT_CTRL)}
    numbers: dict[str, Action] = {"J": Press(0x20)}
    both: dict[str, Action] = {"J": Press(0x21), "S": Press(0x22)}
    all_on: dict[str, Action] = {"S": Press(0x23)}
    stack = {"base": base, "symbols": symbols, "numbers": numbers, "both": both, "all": all_on}
    needs = {"both": ("symbols", "numbers"), "all": ("both", "numbers")}
    return keyboard(rows, stack, needs=needs, debounce_ms=200)


def media_pad() -> Keyboard:
    """Eleven media keys of the consumer page and two system controls, on two layers."""
    rows: list[list[str | None]] = [
        ["Up", "Down", "Mute", "Play"],
        ["Up.2", "Sleep", "Wake", "A"],
        ["More", "Lock", "Shift", None],
    ]
    base: dict[str, Action] = {
        "Up": Media(0x0C, 0xE9),
        "Down": Media(0x0C, 0xEA),
        "Mute": Media(0x0C, 0xE2),
        "Play": Media(0x0C, 0xCD),
        "Up.2": Media(0x0C, 0xE9),  # the same usage twice
        "Sleep": Media(0x01, 0x82),
        "Wake": Media(0x01, 0x83),
        "A": Press(0x04),
        "More": HoldLayer("more"),
        "Lock": LatchLayer("more"),
        "Shift": Press(0, LEFT_SHIFT),
    }
    usages = (0x6F, 0x70, 0xB5, 0xB6, 0xB7, 0x18A, 0x192, 0xE9)
    more: dict[str, Action] = {
        name: Media(0x0C, usage) for name, usage in zip(list(base)[:8], usages, strict=True)
    }
    return keyboard(rows, {"base": base, "more": more})


def one_media_key(page: int, usage: int) -> Keyboard:
    """A letter and a media key: of one kind's report, there is none of the other."""
    return keyboard([["A", "K"]], {"base": {"A": Press(0x04), "K": Media(page, usage)}})


def kept_pad() -> Keyboard:
    """Three bases, which are layers 0, 2 and 3, of a keyboard that remembers which it was."""
    rows: list[list[str | None]] = [["Two", "J", "Three", "Base", "Fn"]]
    base: dict[str, Action] = {
        "Two": ChangeBase("two"),  # the first action of the table
        "J": Press(0x04),
        "Three": ChangeBase("three"),
        "Base": ChangeBase("base"),
        "Fn": HoldLayer("fn"),
    }
    stack: dict[str, dict[str, Action]] = {"base": base, "fn": {"J": Press(0x07)}}
    stack |= {"two": {"J": Press(0x05)}, "three": {"J": Press(0x06)}}
    return keyboard(rows, stack, remember_base=True)


def every_media_key() -> Keyboard:
    """All media keys that there are, one a key."""
    usages = media.media_usages()
    names = [media.media_word(*one) for one in usages]
    width = 11
    padded: list[str | None] = [*names, *[None] * (-len(names) % width)]
    rows = [padded[start : start + width] for start in range(0, len(padded), width)]
    base: dict[str, Action] = {name: Media(*one) for name, one in zip(names, usages, strict=True)}
    return keyboard(rows, {"base": base})


def loader_pad() -> Keyboard:
    """Twelve sensed rows; A, B and Z start the boot loader together, and B on a layer alone.

    F5 changes the base, on which nothing starts it.
    """
    rows: list[list[str | None]] = [["A", "B"], *([f"F{row}", None] for row in range(10))]
    rows.append(["More", "Z"])
    names = [name for row in rows for name in row if name]
    base: dict[str, Action] = {name: Press(0x04 + place) for place, name in enumerate(names)}
    base["More"] = HoldLayer("more")
    base["F5"] = ChangeBase("other")
    other: dict[str, Action] = {"F5": ChangeBase("base"), "F6": Press(0x20)}
    upper: dict[str, Action] = {"B": StartBootLoader(), "F3": StartBootLoader(), "F6": Press(0x22)}
    both: dict[str, Action] = {"F7": Press(0x21)}
    stack = {"base": base, "more": upper, "other": other, "both": both}
    needs = {"both": ("more", "other")}
    return keyboard(rows, stack, needs=needs, hold=("A", "B", "Z"))


def square_board(layers: int = 4) -> Keyboard:
    """Sixty-four keys, eight by eight, four layers: the size that the figures are promised for."""
    rows: list[list[str]] = [[f"K{row}{column}" for column in range(8)] for row in range(8)]
    names = [name for row in rows for name in row]
    base: dict[str, Action] = {name: Press(0x04 + place) for place, name in enumerate(names)}
    for place in range(1, layers):
        base[names[place]] = HoldLayer(f"layer{place}")
    base[names[layers]] = LatchLayer("layer1")
    base[names[layers + 1]] = Press(0, LEFT_SHIFT)
    stack: dict[str, dict[str, Action]] = {"base": base}
    for place in range(1, layers):
        stack[f"layer{place}"] = {
            name: Press(0x04 + (number + place) % 0x60, place)
            for number, name in enumerate(names[8:])
        }
    return keyboard(rows, stack)


def huge_board() -> Keyboard:
    """More of everything than fits a byte: 18 sensed lines, 306 keys, 10 layers, 400 actions."""
    rows: list[list[str]] = [[f"R{row}C{column}" for column in range(17)] for row in range(18)]
    names = [name for row in rows for name in row]
    stack: dict[str, dict[str, Action]] = {"base": {}}
    for number, name in enumerate(names):
        stack["base"][name] = Press(0x04 + number % 0xA0, number // 0xA0)
    for place in range(1, 10):
        stack["base"][names[-place]] = HoldLayer(f"layer{place}")
        stack[f"layer{place}"] = {
            name: Press(0x04 + number % 0x60, 0x10 + place)
            for number, name in enumerate(names[: 20 * place])
        }
    return keyboard(rows, stack, debounce_ms=200)


def knob_pad() -> Keyboard:
    """Three knobs, of 2, 4 and 8 states a step, with all that steps can do and meet."""
    rows: list[list[str | None]] = [
        ["A", "S", "Shift", "OnceShift"],
        ["Sym", "Num", "Text", "M"],
    ]
    base: dict[str, Action] = {
        "A": Press(0x04),
        "S": TapHold(Press(0x16), HoldLayer("symbols"), decided_by="press"),
        "Shift": Press(0, LEFT_SHIFT),
        "OnceShift": OnceModifiers(LEFT_SHIFT),
        "Sym": HoldLayer("symbols"),
        "Num": LatchLayer("numbers"),
        "Text": InTurn(TWO),
        "M": Media(0x0C, 0xE2),
        "volume.left": Media(0x0C, 0xEA),
        "volume.right": Media(0x0C, 0xE9),
        "zoom.left": Press(0x2D, LEFT_CTRL),
        "zoom.right": Press(0x2E, LEFT_CTRL | LEFT_SHIFT),
        "scroll.left": WithModifier(Media(0x0C, 0xE9), (Instead(SHIFT, Press(0x52)),)),
        "scroll.right": pointer_key("WheelUp"),
    }
    symbols: dict[str, Action] = {
        "volume.left": LatchLayer("numbers"),
        "volume.right": ChangeBase("other"),
        "zoom.left": InTurn((TEXT,)),
        "zoom.right": DELETE,
        "scroll.left": pointer_key("Button1"),
        "scroll.right": UnlatchLayers(),
    }
    numbers: dict[str, Action] = {"scroll.right": OnceLayer("symbols"), "A": DELETE}
    other: dict[str, Action] = {"A": Press(0x05), "volume.left": ChangeBase("base")}
    stack = {"base": base, "symbols": symbols, "numbers": numbers, "other": other}
    return keyboard(rows, stack, once_ms=700, knobs={"volume": 4, "zoom": 2, "scroll": 8})


def plain_knob_pad() -> Keyboard:
    """A knob and three keys that know no time, no text and no media keys."""
    base: dict[str, Action] = {
        "A": Press(0x04),
        "Shift": Press(0, LEFT_SHIFT),
        "B": Press(0x52),
        "jog.left": Press(0x52),
        "jog.right": WithModifier(Press(0x51), (Instead(SHIFT, Press(0x4F)),)),
    }
    return keyboard([["A", "Shift", "B"]], {"base": base}, knobs={"jog": 4})


def pointer_pad(*, in_turn: bool = True) -> Keyboard:
    """All keys of a pointer, two for some of the ways, beside keys of each other behaviour.

    Its speeds are such that steps are many, and that a turn comes in the midst of growing.
    """
    rows: list[list[str | None]] = [
        ["Left", "Right", "Up", "Down", "Right.2", "A"],
        ["WUp", "WDown", "WLeft", "WRight", "B1", "B2"],
        ["B3", "B4", "B5", "B1.2", "Shift", "OnceShift"],
        ["Vol", "Sleep", "Sym", "Lat", "Tap", "TapB"],
        ["Way", "But", *(["Text", "Two"] if in_turn else [None, None]), None, None],
    ]
    words = {
        "Left": "PointerLeft",
        "Right": "PointerRight",
        "Up": "PointerUp",
        "Down": "PointerDown",
        "Right.2": "PointerRight",
        "WUp": "WheelUp",
        "WDown": "WheelDown",
        "WLeft": "WheelLeft",
        "WRight": "WheelRight",
        **{f"B{number}": f"Button{number}" for number in range(1, 6)},
        "B1.2": "Button1",
    }
    base: dict[str, Action] = {key: pointer_key(word) for key, word in words.items()}
    base |= {
        "A": Press(0x04),
        "Shift": Press(0, LEFT_SHIFT),
        "OnceShift": OnceModifiers(LEFT_SHIFT),
        "Vol": Media(0x0C, 0xE9),
        "Sleep": Media(0x01, 0x82),
        "Sym": HoldLayer("symbols"),
        "Lat": LatchLayer("symbols"),
        "Tap": TapHold(Press(0x05), pointer_key("PointerRight"), after_ms=120),
        "Way": WithModifier(pointer_key("WheelUp"), (Instead(SHIFT, pointer_key("WheelRight")),)),
        "But": WithModifier(Press(0x07), (Instead(SHIFT, pointer_key("Button3")),)),
        "TapB": TapHold(pointer_key("Button2"), HoldLayer("symbols"), decided_by="press"),
    }
    if in_turn:
        base |= {"Text": InTurn((TEXT,)), "Two": InTurn((*TWO, Pause(30), TEXT))}
    symbols: dict[str, Action] = {
        "Left": pointer_key("WheelLeft"),
        "Up": pointer_key("PointerRight"),
        "A": pointer_key("Button1"),
        "B1": Press(0x06),
        "B2": OnceLayer("symbols"),
    }
    stack = {"base": base, "symbols": symbols}
    return keyboard(rows, stack, once_ms=600, pointer=(90, 2300, 350), wheel=(11, 170, 500))


def lone_pointer() -> Keyboard:
    """Keys of a pointer and of nothing else: no media key, no modifier, one steady speed."""
    words = ("PointerLeft", "PointerRight", "PointerUp", "PointerDown", "Button1", "WheelUp")
    base: dict[str, Action] = {word: pointer_key(word) for word in words}
    return keyboard([[*base]], {"base": base}, pointer=(333,))


def pointer_key(word: str) -> Pointer:
    found = pointer_usage_of(word)
    assert found
    return Pointer(*found)
