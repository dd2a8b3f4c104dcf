"""The keys of a computer's own keyboard as a browser calls them: `KeyboardEvent.code` to usages.

Source: the W3C's "UI Events KeyboardEvent code Values", section 3, whose names say where a key is
on the keyboard and not what it types; from memory. A key stands for the usage that such a keyboard
sends.
"""

from __future__ import annotations

from matrixgen.usages import usage_of

_SAME_WORD = (
    "Enter Escape Backspace Tab Space Minus Equal Backslash Semicolon Comma Period Slash CapsLock "
    "PrintScreen ScrollLock Pause Insert Home PageUp Delete End PageDown NumLock Help Again Undo "
    "Cut Copy Paste Find Select"
)

_OTHER_WORD = """
BracketLeft LeftBracket
BracketRight RightBracket
Quote Apostrophe
Backquote Grave
ArrowRight RightArrow
ArrowLeft LeftArrow
ArrowDown DownArrow
ArrowUp UpArrow
NumpadDivide KeypadSlash
NumpadMultiply KeypadAsterisk
NumpadSubtract KeypadMinus
NumpadAdd KeypadPlus
NumpadEnter KeypadEnter
NumpadDecimal KeypadPeriod
NumpadEqual KeypadEqual
NumpadComma KeypadComma
IntlBackslash NonUSBackslash
IntlRo International1
KanaMode International2
IntlYen International3
Convert International4
NonConvert International5
ContextMenu Application
ControlLeft LeftControl
ShiftLeft LeftShift
AltLeft LeftAlt
MetaLeft LeftGUI
ControlRight RightControl
ShiftRight RightShift
AltRight RightAlt
MetaRight RightGUI
"""


def _words() -> dict[str, str]:
    numbered = {f"Digit{digit}": str(digit) for digit in range(10)}
    numbered |= {f"Numpad{digit}": f"Keypad{digit}" for digit in range(10)}
    numbered |= {f"Lang{number}": f"LANG{number}" for number in range(1, 6)}
    numbered |= {f"F{number}": f"F{number}" for number in range(1, 25)}
    letters = {f"Key{letter}": letter for letter in "ABCDEFGHIJKLMNOPQRSTUVWXYZ"}
    other = dict(line.split() for line in _OTHER_WORD.split("\n") if line)
    return letters | numbered | {word: word for word in _SAME_WORD.split()} | other


CODES: dict[str, int] = {
    code: usage for code, word in _words().items() if (usage := usage_of(word)) is not None
}
"""Each code and its usage of the keyboard page."""
