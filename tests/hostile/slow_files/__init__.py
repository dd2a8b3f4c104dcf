"""Files that try to be slow to check, each at the limits of the language or at a part of them."""

from tests.hostile.slow_files import keymaps, matrices, plates, repeated, texts, typed
from tests.hostile.slow_files.shapes import SHAPES

__all__ = ["SHAPES", "keymaps", "matrices", "plates", "repeated", "texts", "typed"]
