"""Lives to begin with, as the bytes that `entry.c` reads: hosts that enumerate, hands that type."""

from __future__ import annotations

from pathlib import Path

KEY, TIME, BUS, SETUP, OUT, IN, PACKET, SPARK = range(8)
ONE_TURN, THREE_TURNS = 1 << 3, 3 << 3
OTHER = 1 << 7
"""Of the second interface, of a packet."""
RESET, SUSPEND, RESUME = 1, 2, 4

GET_DEVICE = bytes([0x80, 6, 0, 1, 0, 0, 18, 0])
GET_CONFIGURATION = bytes([0x80, 6, 0, 2, 0, 0, 255, 0])
GET_PRODUCT = bytes([0x80, 6, 2, 3, 9, 4, 255, 0])
GET_REPORT_DESCRIPTOR = bytes([0x81, 6, 0, 0x22, 0, 0, 255, 0])
GET_STATUS = bytes([0x80, 0, 0, 0, 0, 0, 2, 0])
SET_ADDRESS = bytes([0x00, 5, 9, 0, 0, 0, 0, 0])
SET_CONFIGURATION = bytes([0x00, 9, 1, 0, 0, 0, 0, 0])
ALLOW_WAKE_UP = bytes([0x00, 3, 1, 0, 0, 0, 0, 0])
HALT = bytes([0x02, 3, 0, 0, 0x81, 0, 0, 0])
CLEAR_HALT = bytes([0x02, 1, 0, 0, 0x81, 0, 0, 0])
SET_INTERFACE = bytes([0x01, 11, 0, 0, 0, 0, 0, 0])
SET_IDLE = bytes([0x21, 0x0A, 0, 5, 0, 0, 0, 0])
SET_BOOT_PROTOCOL = bytes([0x21, 0x0B, 0, 0, 0, 0, 0, 0])
SET_LIGHTS = bytes([0x21, 9, 0, 2, 0, 0, 1, 0])
GET_REPORT = bytes([0xA1, 1, 0, 1, 0, 0, 36, 0])

GET_MEDIA_REPORT = bytes([0xA1, 1, 1, 1, 1, 0, 36, 0])
GET_POINTER_REPORT = bytes([0xA1, 1, 4, 1, 1, 0, 36, 0])
STATUS_OF_MEDIA = bytes([0x82, 0, 0, 0, 0x82, 0, 2, 0])
HALT_MEDIA = bytes([0x02, 3, 0, 0, 0x82, 0, 0, 0])

READS = (
    *(GET_DEVICE, GET_CONFIGURATION, GET_PRODUCT, GET_REPORT_DESCRIPTOR, GET_STATUS, GET_REPORT),
    *(GET_MEDIA_REPORT, GET_POINTER_REPORT, STATUS_OF_MEDIA),
)
WRITES = (ALLOW_WAKE_UP, HALT, CLEAR_HALT, SET_INTERFACE, SET_IDLE, SET_BOOT_PROTOCOL, HALT_MEDIA)


def write(setup: bytes) -> bytes:
    return bytes([SETUP | THREE_TURNS, *setup, IN | THREE_TURNS])


def read(setup: bytes) -> bytes:
    taken = bytes([IN | ONE_TURN]) * 3
    return bytes([SETUP | THREE_TURNS, *setup, *taken, OUT | ONE_TURN, 0])


def lights() -> bytes:
    return bytes([SETUP | ONE_TURN, *SET_LIGHTS, OUT | THREE_TURNS, 1, 2, IN | ONE_TURN])


def tap(crossing: int) -> bytes:
    """Go down and up, with time, while the host takes reports."""
    wait = bytes([TIME | ONE_TURN, 9, PACKET | ONE_TURN, PACKET | OTHER | ONE_TURN])
    down, up = 0x80 | crossing, crossing
    return bytes([KEY | ONE_TURN, down, *wait, KEY | ONE_TURN, up, *wait, *wait])


def seeds() -> list[bytes]:
    """Return lives that reach far from the start."""
    begin = bytes([BUS | ONE_TURN, RESET]) + write(SET_ADDRESS) + write(SET_CONFIGURATION)
    typing = b"".join(map(tap, range(16)))
    asleep = bytes([BUS | ONE_TURN, SUSPEND, *tap(4), BUS | ONE_TURN, RESUME])
    return [
        begin + typing,
        begin + b"".join(map(read, READS)),
        *(begin + write(setup) + tap(4) for setup in WRITES),
        begin + lights() + typing,
        begin + write(ALLOW_WAKE_UP) + asleep,
        begin + bytes(n for key in range(16) for n in (KEY | ONE_TURN, 0x80 | key)),
    ]


def write_seeds(folder: Path) -> Path:
    folder.mkdir()
    for number, seed in enumerate(seeds()):
        (folder / f"seed{number}").write_bytes(seed)
    return folder
