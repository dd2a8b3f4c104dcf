"""Which of several ways to a sign is the better one."""

from __future__ import annotations

from matrixgen.usages.key_stroke import KeyStroke

RankedWay = tuple[tuple[KeyStroke, int], ...]
"""The strokes of a way, each with the level, 0 to 3, that its modifiers choose."""

KEYPAD = range(0x54, 0x64)
"""The keypad's usages that all keypads have."""

ALL_KEYPADS = (*KEYPAD, 0x67, 0x85, 0x86)
"""Those of some keypads too: an equals sign and two kinds of comma."""
MAIN_BLOCK = range(0x04, 0x39)
BESIDE_SHIFT = 0x64


def _rarity(usage: int) -> int:
    """Return 0 for keys of the main block, 1 for those that fewer keyboards have, and so on.

    Only some have the key beside the left Shift key, and many no keypad. `NonUSHash` is another
    number for `Backslash`; the keys above are of few countries.
    """
    if usage in MAIN_BLOCK and usage != 0x32:
        return 0
    if usage == BESIDE_SHIFT:
        return 1
    return 2 if usage in KEYPAD else 3


def rank_of(usage: int, level: int) -> tuple[int, ...]:
    """Return what orders the places of one sign, the best first.

    AltGr is worse than the key beside the left Shift key; a key of few keyboards is the last.
    """
    rarity = _rarity(usage)
    return (max(rarity - 1, 0), level >> 1, rarity, level, usage)


def switch_rank(usage: int, level: int, *, nth_letter: int) -> tuple[int, ...]:
    """Return what orders the keys that have a sign, or a letter's other case (`nth_letter` 1).

    A key of the keypad comes last, even after one that few keyboards have.
    """
    return (int(usage in ALL_KEYPADS), level >> 1, nth_letter, _rarity(usage), level, usage)


def rank_of_way(way: RankedWay) -> tuple[object, ...]:
    """Return what orders the ways to a sign, the best first.

    One stroke is better than two, unless its key is one that few keyboards have.
    """
    ranks = [rank_of(stroke.usage, level) for stroke, level in way]
    return (is_rare(way), len(way), *zip(*ranks, strict=True))


def is_rare(way: RankedWay) -> bool:
    """Whether a way needs a key that few keyboards have."""
    return any(_rarity(stroke.usage) > 2 for stroke, _ in way)
