"""How large a keyboard may be. One place for every limit of the language."""

from __future__ import annotations

from matrixgen.record import Record


class Limits(Record, kw_only=True):
    """The largest file, and the largest keyboard in it."""

    file_bytes: int = 1_000_000
    lines_per_axis: int = 32
    keys: int = 1024
    layers: int = 32
    holes: int = 200
    areas: int = 200
    name_letters: int = 48
    string_units: int = 126  # a string descriptor is a byte's worth: USB 2.0 section 9.6.7
    syntax_mistakes: int = 100
    widest_key: float = 20
    least_area: float = 0.05  # a millimetre, about: what is smaller keeps nothing clear
    plate_reach: float = 1000


LIMITS = Limits()
"""What the firmware's number types hold; the bench lifts them."""
