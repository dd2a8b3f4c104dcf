"""A small whole file, and fragments made whole with it."""

BLOCKS = {
    "keyboard": 'keyboard "Heron 4"\n  controller stick-32u4\n',
    "plate": "plate\n  line A B\n  line C D\n",
    "wiring": (
        "wiring\n"
        "  drive columns, sense rows\n"
        "  diodes 1N4148, band toward columns\n"
        "  row    r0 on PD0  A B\n"
        "  row    r1 on PD1  C D\n"
        "  column c0 on PB0  A C\n"
        "  column c1 on PB1  B D\n"
    ),
}

WHOLE = "\n".join(BLOCKS.values())


def completed(fragment: str) -> str:
    """A fragment with the blocks that it lacks before it."""
    opened = {line.split()[0] for line in fragment.splitlines() if line[:1].strip()}
    before = [block for name, block in BLOCKS.items() if name not in opened]
    return "\n".join([*before, fragment])
