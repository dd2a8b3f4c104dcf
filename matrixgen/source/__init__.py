"""A .keys file to a `Keyboard`: text, tree, names, and a finding for every mistake."""

from matrixgen.source.file import keyboard_of, read_keyboard
from matrixgen.source.limits import LIMITS, Limits

__all__ = ["LIMITS", "Limits", "keyboard_of", "read_keyboard"]
