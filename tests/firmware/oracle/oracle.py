"""What a keyboard must do, said a second time, in Python and from the model alone.

Nothing here knows how the C engine works: reports and layers are not kept up to date, but worked
out each time from the keys that are down.
"""

from __future__ import annotations

from collections import deque
from dataclasses import dataclass, field

from matrixgen.model import BASE, Action, Keyboard, matrix_of
from tests.firmware.oracle.behaviours import held_by, press_key
from tests.firmware.oracle.state import Lasting

QUEUE_ROOM = 16
HOLD_MS = 1000
ERROR_ROLL_OVER = 0x01


@dataclass
class Contact:
    """One key's switch as the debouncing sees it; `open_since` in ms, while it reads open."""

    accepted: bool = False
    open_since: int | None = None


@dataclass
class Oracle:
    keyboard: Keyboard
    now_ms: int = 0
    closed: set[str] = field(default_factory=set)
    is_open: bool = True
    boot: bool = False

    contacts: dict[str, Contact] = field(default_factory=dict)
    queue: deque[tuple[str, bool]] = field(default_factory=deque)
    held: dict[str, Action] = field(default_factory=dict)
    lasting: Lasting = field(default_factory=Lasting)
    waiting: bytes | None = None
    told: bytes | None = None
    told_boot: bool = False
    doubtful: bool = False

    last_apart: int = 0

    def __post_init__(self) -> None:
        contacts = matrix_of(self.keyboard).contacts
        in_order = sorted(contacts, key=lambda contact: (contact.drive, contact.sense))
        self.contacts = {contact.key: Contact() for contact in in_order}
        self.cells = {
            layer.name.text: {cell.key.text: cell.action for cell in layer.cells}
            for layer in self.keyboard.layers
        }

    # --- the switches ---

    def scan(self) -> bool:
        """One scan; true if a press was accepted."""
        presses = [key for key in self.contacts if self._look_at(key)]
        return bool(presses)

    def _look_at(self, key: str) -> bool:
        contact = self.contacts[key]
        if key in self.closed:
            contact.open_since = None
            if contact.accepted or not self._queued(key, True):
                return False
            contact.accepted = True
            return True
        if contact.accepted:
            if contact.open_since is None:
                contact.open_since = self.now_ms
            long_enough = self.now_ms - contact.open_since > self.keyboard.debounce_ms.value
            if long_enough and self._queued(key, False):
                contact.accepted, contact.open_since = False, None
        return False

    def _queued(self, key: str, down: bool) -> bool:
        if len(self.queue) == QUEUE_ROOM:
            return False
        self.queue.append((key, down))
        return True

    def watch_combination(self) -> None:
        """Where the keys that start the boot loader are down, see how long they have been."""
        hold = [word.text for word in self.keyboard.boot_loader.hold]
        if not hold or not all(self.contacts[key].accepted for key in hold):
            self.last_apart = self.now_ms
        elif self.now_ms - self.last_apart >= HOLD_MS:
            self.lasting.boot_loads += 1

    # --- the actions ---

    def layers_on(self) -> list[str]:
        """From the top down."""
        on = held_by(self.held.values()).layers | self.lasting.latched | {BASE}
        names = [layer.name.text for layer in self.keyboard.layers]
        return [name for name in reversed(names) if name in on]

    def _next_event(self) -> bool:
        if not self.queue:
            return False
        key, down = self.queue.popleft()
        if not down:
            del self.held[key]
            return True
        action = next(self.cells[on][key] for on in self.layers_on() if key in self.cells[on])
        self.held[key] = action
        press_key(action, self.lasting)
        return True

    # --- the reports ---

    def report(self, boot: bool) -> bytes:
        held = held_by(self.held.values())
        # HID 1.11 appendix B.1, and appendix C for more than six
        keys = sorted(held.usages) if len(held.usages) <= 6 else [ERROR_ROLL_OVER] * 6
        first = bytes([held.modifiers, 0, *keys]).ljust(8, b"\0")
        bits = sum(1 << usage for usage in held.usages)
        return first if boot else first + bits.to_bytes(28, "little")

    @property
    def boot_loads(self) -> int:
        """How often the keyboard has left for the boot loader."""
        return self.lasting.boot_loads

    def _give(self) -> bool:
        report = self.report(self.boot)
        if self.told is None:
            fresh = any(report)
        elif self.doubtful or self.boot != self.told_boot:
            fresh = any(report) or any(self.told)
        else:
            fresh = report != self.told
        self.told, self.told_boot, self.doubtful = report, self.boot, False
        if fresh:
            self.waiting = report
        return fresh

    def step(self) -> bool:
        pressed = self.scan()
        self.watch_combination()
        if not self.is_open:
            while self._next_event():
                pass
            self.doubtful = True
        elif self.waiting is None:
            while not self._give() and self._next_event():
                pass
        return pressed

    def take(self) -> bytes | None:
        taken, self.waiting = self.waiting, None
        return taken
