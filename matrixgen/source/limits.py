"""How large a keyboard may be. One place for every limit of the language."""

from __future__ import annotations

from matrixgen.record import Record


class Limits(Record, kw_only=True):
    """The largest file, the largest keyboard in it, and how much is found in it or named by it.

    `words` are what spaces and signs part, comments included. `listed_keys` are the keys inside of
    runs: a matrix of all keys has fewer than 2,048. After so many `findings` nothing more is read,
    and after so many searches for `similar_names` none is suggested.
    """

    file_bytes: int = 1_000_000
    words: int = 120_000
    lines_per_axis: int = 32
    keys: int = 1024
    layers: int = 32
    together: int = 100  # sets of keys: the firmware looks through all of them
    strokes: int = 16_000  # typed in turn, two bytes each: an AVR's array has 32,767 at most
    holes: int = 200
    areas: int = 200
    lights: int = 16
    knobs: int = 8
    name_letters: int = 48
    string_units: int = 126  # a string descriptor is a byte's worth: USB 2.0 section 9.6.7
    text_letters: int = 1000  # of a text that a key types
    syntax_mistakes: int = 100
    findings: int = 500
    similar_names: int = 60
    allowances: int = 500
    controllers: int = 8
    listed_keys: int = 40_000
    widest_key: float = 20
    least_area: float = 0.05  # a millimetre, about: what is smaller keeps nothing clear
    plate_reach: float = 1000
    outline_margin: float = 200  # millimetres, as is the radius
    outline_radius: float = 100
    outline_corners: int = 200
    least_side: float = 0.005  # a tenth of a millimetre: of an outline with corners
    least_cut_out: float = 12  # each side: both legs go through
    cut_out: float = 15  # a switch's housing of 15.6 mm rests on the edge
    least_thickness: float = 1  # the same for `--thickness`
    thickness: float = 20
    least_volts: float = 1  # of a light: below it no LED is lit
    volts: float = 4
    least_milliamperes: float = 0.1
    milliamperes: float = 20  # what common LEDs are rated for


LIMITS = Limits()
"""What the firmware's number types hold; the bench lifts them."""
