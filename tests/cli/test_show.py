"""`matrixgen show`: plate and layers in the terminal."""

from __future__ import annotations

from tests.texts import GOOD

LAYERS = GOOD + "\nlayer base\n  B = hold layer nav\n\nlayer nav\n  A = Left\n"


def test_each_layer_is_drawn_with_what_it_gives(program):
    ran = program("show", program.write("pad.keys", LAYERS), "--width", "40")
    assert ran.status == 0
    assert ran.out.split("\n") == [
        "layer base",
        "",
        "     A         >nav",
        "",
        "layer nav",
        "",
        "   Left         --",
        "",
        "--  left to the layers below",
        ">   hold layer",
        "",
    ]


def test_one_layer_alone(program):
    ran = program("show", program.write("pad.keys", LAYERS), "--layer", "nav")
    assert ran.out.split()[:4] == ["layer", "nav", "Left", "--"]
    ran = program("show", "pad.keys", "--layer", "nan")
    assert ran.status == 2
    assert "no layer `nan`" in ran.err
    assert "`nav`" in ran.err


def test_no_line_is_longer_than_it_may_be(program):
    keys = " ".join(f"K{n}" for n in range(40))
    text = f"plate\n  line {keys}\n\nlayer base\n" + "".join(
        f"  K{n} = Ctrl+Shift+Backspace\n" for n in range(40)
    )
    for width in (20, 60, 120):
        ran = program("show", program.write("wide.keys", text), "--width", str(width))
        assert ran.status == 0
        assert max(map(len, ran.out.splitlines())) <= width
        assert ran.out.count("CS+") == 40 + ("CS+" in ran.out.split("\n\n")[-1])


def test_a_plate_alone_is_shown_and_a_broken_file_is_not(program):
    assert program("show", program.write("plate.keys", "plate\n  line A B\n")).status == 0
    assert program("show", program.write("bad.keys", "plate\n  line A A\n")).status == 1


def test_the_key_and_the_sign_for_left_alone_are_not_alike(program):
    text = "plate\n  line Period A S\n\nlayer base\n  S = hold layer x\n\nlayer x\n  A = Period\n"
    ran = program("show", program.write("dots.keys", text))
    base, other = ran.out.split("layer x")
    assert base.split()[2:5] == [".", "A", ">x"]
    assert other.split()[:3] == ["--", ".", "--"]


def test_a_modifier_in_little_room_keeps_its_key(program):
    keys = " ".join(f"K{n}" for n in range(1, 10))
    cells = "".join(f"  K{n} = Shift+{n}\n" for n in range(1, 10))
    ran = program(
        "show",
        program.write("s.keys", f"plate\n  line {keys}\n\nlayer base\n{cells}"),
        "--width",
        "40",
    )
    assert ran.out.split("\n")[2].split() == [f"S+{n}" for n in range(1, 10)]
    assert "S+  Shift+" in ran.out
