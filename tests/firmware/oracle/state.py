"""What is so at one moment because of the keys that are down and of those that were pressed."""

from __future__ import annotations

from dataclasses import dataclass, field


@dataclass
class Held:
    """What the keys that are down hold, put together anew each time it is asked for."""

    usages: set[int] = field(default_factory=set)
    modifiers: int = 0
    layers: set[str] = field(default_factory=set)


@dataclass
class Lasting:
    """What presses have left behind."""

    latched: set[str] = field(default_factory=set)
    boot_loads: int = 0
