"""The bench sheet as a maker meets it: in a browser, on a screen and on a phone."""

from __future__ import annotations

import pytest
from axe_playwright_python.sync_playwright import Axe
from playwright.sync_api import expect

from matrixgen.emit.press_data import press_data
from matrixgen.emit.sheet import page as written
from matrixgen.emit.sheet import sheet_of
from matrixgen.jobs.press import press_data_of
from matrixgen.toolchain.web_engine import NoEngine
from tests.amounts import in_turn, some
from tests.browser.browsers import only_chromium
from tests.browser.conftest import Watched
from tests.examples.shipped import NAMES, example

STORED_SOON = 20  # how often a page is opened again until what it stored is there


@pytest.mark.parametrize("name", some(NAMES, 4))
def test_a_page_opens_without_a_complaint_and_shows_one_layer(sheet_page, name):
    """What the console said and what was asked for, the fixture `page` looks at."""
    page = sheet_page(name)
    layers = [layer.name.text for layer in example(name).keyboard.layers]
    for layer in layers:
        if len(layers) > 1:
            page.get_by_role("radio", name=layer, exact=True).check()
        shown = page.locator("figure.layer:visible")
        assert shown.evaluate_all("all => all.map((one) => one.dataset.layer)") == [layer]


STRANGE = """<p id="strange" style="position: fixed">A</p><style>#strange { color: red }</style>
<script>document.title = "strange"</script>"""
"""What a page would have if text from a file came into it as markup."""


def test_a_page_s_policy_lets_its_own_styles_and_scripts_by_and_no_others(browser, tmp_path):
    shipped = example("heron-12")
    press = press_data_of(shipped.keyboard, str(shipped.path))
    own = written(sheet_of(shipped.keyboard, str(shipped.path), press, shipped.mounted))
    file = tmp_path / "page.html"
    file.write_bytes(own.replace(b"</body>", STRANGE.encode() + b"</body>"))
    watched = Watched(browser)
    page = watched.page
    page.goto(file.as_uri())
    assert page.title() != "strange"
    style = "one => getComputedStyle(one)"
    strange = page.locator("#strange")
    assert strange.evaluate(f"{style}.position") == "static"
    assert strange.evaluate(f"{style}.color") != "rgb(255, 0, 0)"
    colours = page.locator("[data-wire][style]").evaluate_all(
        "all => all.map((one) => getComputedStyle(one).getPropertyValue('--wire'))"
    )
    assert len(colours) > 5 and all(colours)
    refused = [one for one in watched.complaints if "the policy refused" in one]
    assert sorted(one.rsplit(" ", 1)[-1] for one in refused) == [
        "script-src-elem",
        "style-src-attr",
        "style-src-elem",
    ]
    page.context.close()


@pytest.mark.parametrize(
    ("name", "scheme"), in_turn(["avocet-42", "whimbrel-34"], ["light", "dark"])
)
def test_axe_finds_nothing_serious(sheet_page, name, scheme):
    """axe-core's rules for WCAG 2, contrast AA among them (levels as axe gives them)."""
    page = sheet_page(name)
    if scheme != "light":
        only_chromium(page, "can be told to be dark: Firefox ESR has no such command yet")
    page.emulate_media(color_scheme=scheme)
    assert page.evaluate(f"matchMedia('(prefers-color-scheme: {scheme})').matches")
    found = Axe().run(page).response["violations"]
    serious = [one for one in found if one["impact"] in ("serious", "critical")]
    assert [(one["id"], one["nodes"][0]["html"][:200]) for one in serious] == []


def test_a_key_tells_its_wires_and_what_it_does(sheet_page):
    page = sheet_page("avocet-42")
    told = page.locator("#about-key")
    page.locator("figure.layer:visible [data-key=E]").first.hover()
    expect(told).to_have_text(
        "E · row top, pin PF4, brown · column middle-l, pin PD3, white · base: E · low: UpArrow"
        " · high: F3"
    )
    page.locator("figure.layer:visible [data-key=D]").first.focus()
    expect(told).to_contain_text("D · row home, pin PF5, orange")


def test_ticks_are_there_again_when_the_page_is(sheet_page):
    """Soon: the browser stores them beside the page, which here is opened again within a moment."""
    page = sheet_page("heron-12")
    ticks = page.locator(".ticks input")
    ticks.nth(1).check()
    ticks.nth(3).check()
    seen, wanted = [], [False, True, False, True]
    for _ in range(STORED_SOON):
        page.reload()
        seen = [ticks.nth(place).is_checked() for place in range(4)]
        if seen == wanted:
            break
    assert seen == wanted


def test_step_by_step_goes_through_the_wires_in_soldering_order(sheet_page):
    page = sheet_page("heron-12")
    wires = page.locator(".ticks input[data-wire]").evaluate_all(
        "all => all.map((one) => one.dataset.wire)"
    )
    page.locator(".ticks input[data-wire]").first.check()
    page.get_by_label("one wire at a time").check()
    now = page.locator("svg.back .wire.is-now")
    seen = [now.get_attribute("data-wire")]
    while page.get_by_role("button", name="next wire").is_enabled():
        page.get_by_role("button", name="next wire").click()
        seen.append(now.get_attribute("data-wire"))
    assert seen == wires[1:], "it starts with the first wire that is not ticked"
    expect(page.locator("#step-text")).to_contain_text(wires[-1])
    page.get_by_role("button", name="previous wire").click()
    assert now.get_attribute("data-wire") == wires[-2]


@pytest.mark.parametrize("name", ["goosander-104", "heron-12"])
def test_on_a_phone_the_page_is_no_wider_than_the_phone(sheet_page, name):
    page = sheet_page(name)
    page.set_viewport_size({"width": 360, "height": 740})
    assert page.evaluate("document.documentElement.scrollWidth") <= 360


def test_without_colours_no_two_wires_look_alike(sheet_page):
    """As Chromium draws them for somebody who sees no colours at all (achromatopsia)."""
    page = sheet_page("goosander-104")
    only_chromium(page, "simulates how somebody sees")
    session = page.context.new_cdp_session(page)
    session.send("Emulation.setEmulatedVisionDeficiency", {"type": "achromatopsia"})
    swatches = page.locator(".ticks li svg.swatch")
    pictures = {swatches.nth(place).screenshot() for place in range(swatches.count())}
    assert len(pictures) == swatches.count() > 20


def test_the_live_keyboard_types_and_its_caps_follow_the_layers(sheet_page):
    page = sheet_page("avocet-42")
    live = page.locator("[data-press=area]")
    page.wait_for_function("document.querySelector('[data-press=live]').hidden === false")
    page.get_by_label("Clicked keys stay down").check()
    caps = live.locator("[data-key=U] .cap-text")
    expect(caps).to_have_text("U")
    live.locator("[data-key=Low]").click()
    expect(page.locator("[data-press=layers]")).to_have_text("low, base")
    expect(caps).to_have_text("7")
    expect(live.locator("[data-key=Q] .cap-text")).to_have_text("Q")
    live.locator("[data-key=U]").click()
    expect(page.locator("[data-press=before]")).to_have_text("7")
    live.locator("[data-key=Low]").click()
    expect(page.locator("[data-press=layers]")).to_have_text("base")
    expect(caps).to_have_text("U")


def test_a_page_without_an_engine_has_everything_else(page, tmp_path):
    shipped = example("heron-12")
    press = press_data(shipped.keyboard, NoEngine("There is no compiler here."))
    file = tmp_path / "page.html"
    sheet = sheet_of(shipped.keyboard, str(shipped.path), press, shipped.mounted)
    file.write_bytes(written(sheet))
    page.goto(file.as_uri())
    expect(page.locator("[data-press=reason]")).to_have_text("There is no compiler here.")
    assert page.locator("[data-press=live]").is_hidden()
    assert page.locator("svg.back .wire").count() == 7


LIVE = "document.querySelector('[data-press=live]').hidden === false"


def test_a_live_key_is_called_by_what_it_does_now(sheet_page):
    page = sheet_page("avocet-42")
    page.wait_for_function(LIVE)
    page.get_by_label("Clicked keys stay down").check()
    key = page.locator("[data-press=area] [data-key=U]")
    assert key.get_attribute("aria-label") == "U"
    page.locator("[data-press=area] [data-key=Low]").click()
    expect(key).to_have_attribute("aria-label", "U: 7")
    held = page.locator("[data-press=area] [data-key=Low]")
    expect(held).to_have_attribute("aria-pressed", "true")


def test_each_picture_of_keys_is_one_stop_of_tab(sheet_page):
    page = sheet_page("avocet-42")
    page.wait_for_function(LIVE)
    stops = "all => all.map((one) => one.querySelectorAll('[data-key][tabindex=\"0\"]').length)"
    pictures = page.locator("svg.front")
    assert pictures.evaluate_all(stops) == [1] * pictures.count()
    page.locator("figure.layer:visible [data-key=Q]").focus()
    page.keyboard.press("ArrowDown")
    expect(page.locator("#about-key")).to_contain_text("A · row home")


def test_without_a_script_no_dead_control_is_shown(browser, tmp_path):
    """Boxes to tick stay: a browser ticks them by itself."""
    shipped = example("avocet-42")
    press = press_data(shipped.keyboard, NoEngine("There is no compiler here."))
    file = tmp_path / "page.html"
    sheet = sheet_of(shipped.keyboard, str(shipped.path), press, shipped.mounted)
    file.write_bytes(written(sheet))
    context = browser.new_context(java_script_enabled=False)
    page = context.new_page()
    only_chromium(page, "runs no script where playwright asks for that")
    page.goto(file.as_uri())
    dead = page.locator("button:visible, [role=button]:visible, input[type=radio]:visible")
    assert dead.count() == 0
    assert page.locator("[data-key][tabindex]").count() == 0
    assert page.locator("#about-key").is_hidden()
    assert page.locator("figure.layer:visible").count() == len(shipped.keyboard.layers)
    context.close()


WINDOWS = [(1280, 720), (390, 844)]


@pytest.mark.parametrize(
    ("name", "size"), in_turn(["avocet-42", "goosander-104", "knot-21", "whimbrel-34"], WINDOWS)
)
def test_the_live_section_with_its_reports_is_in_the_window_below_its_heading(
    sheet_page, name, size
):
    page = sheet_page(name)
    page.set_viewport_size(dict(zip(("width", "height"), size, strict=True)))
    page.wait_for_function(LIVE)
    page.evaluate("document.getElementById('press-heading').scrollIntoView()")
    board = "pressIt.board.then((board) => { board.halt(); board.restart(); })"
    page.evaluate(board)
    key = example(name).keyboard.keys[0].name.text
    page.evaluate(
        "(key) => pressIt.board.then((board) => "
        "{ board.fingers.hold(key, key); board.pass(400); })",
        key,
    )
    heading = page.locator("#press-heading").bounding_box()
    body = page.locator(".press-body").bounding_box()
    assert heading["y"] + heading["height"] <= body["y"]
    assert body["y"] + body["height"] <= size[1]
    for part in ("[data-press=layers]", "[data-press=before]", "[data-press=log]"):
        box = page.locator(part).bounding_box()
        assert 0 <= box["y"] <= body["y"] + body["height"] - 10, part


@pytest.mark.parametrize("name", ["goosander-104", "heron-12"])
def test_on_a_phone_a_finger_hits_a_live_key(sheet_page, name):
    """44 pixels a side (WCAG 2.2, target size, enhanced)."""
    page = sheet_page(name)
    page.set_viewport_size({"width": 390, "height": 844})
    page.wait_for_function(LIVE)
    sides = page.locator("[data-press=area] .cap").evaluate_all(
        "all => all.flatMap((one) => { const box = one.getBoundingClientRect();"
        " return [box.width, box.height]; })"
    )
    assert min(sides) >= 44
    assert page.evaluate("document.documentElement.scrollWidth") <= 390
