"""A page whose file is followed, in a browser: it is drawn again, and keeps its place."""

from __future__ import annotations

from collections.abc import Iterator

import pytest
from playwright.sync_api import expect

from tests.browser.conftest import Watched
from tests.cli.test_watch import Following
from tests.texts import GOOD

LAYERS = f"{GOOD}\nlayer base\n  A = hold layer nav\n\nlayer nav\n  B = Left\n"
WRONG = LAYERS.replace("PB1", "PB0")
UNREADABLE = LAYERS.replace("wiring\n", "wirin\n")

BEHIND = "() => document.getElementById('behind').getBoundingClientRect().top"

OF_BROWSERS = ("ERR_CONNECTION_REFUSED", "ERR_INCOMPLETE", "favicon.ico", "refused img-src")
"""What they say of a server that has gone, and Firefox of an icon that it looks for by itself."""


@pytest.fixture
def following(tmp_path) -> Iterator[Following]:
    (tmp_path / "pad.keys").write_text(WRONG, "utf-8")
    with Following(tmp_path / "pad.keys") as following:
        yield following


def test_a_save_appears_and_the_page_keeps_its_place_its_layer_and_its_ticks(
    browser, tmp_path, following
):
    file = tmp_path / "pad.keys"
    watched = Watched(browser)
    page = watched.page
    page.goto(following.url)
    tick = page.locator(".ticks input").nth(1)
    tick.check()
    page.get_by_role("radio", name="nav", exact=True).check()
    # in one step: Firefox goes back to what was to be in view if a part of a scroll comes after it
    page.evaluate(f"scrollBy(0, ({BEHIND})() + 40)")
    place = page.evaluate(BEHIND)
    assert page.evaluate("scrollY") > 100 and place < 0

    def keeps_its_place() -> None:
        expect(page.get_by_role("radio", name="nav", exact=True)).to_be_checked()
        shown = page.locator("figure.layer:visible")
        assert shown.evaluate_all("all => all.map((one) => one.dataset.layer)") == ["nav"]
        expect(tick).to_be_checked()
        assert abs(page.evaluate(BEHIND) - place) <= 1

    file.write_text(WRONG.replace("B = Left", "B = Right"), "utf-8")
    expect(page.locator("figure.layer[data-layer=nav] [data-key=B]")).to_have_attribute(
        "aria-label", "B: RightArrow"
    )
    keeps_its_place()
    more = WRONG.replace("row    r0 on PD0", "row    r0 on PZ9")  # a list that is longer by a line
    file.write_text(more, "utf-8")
    expect(page.locator("section.findings li")).to_have_count(2)
    keeps_its_place()
    file.write_text(UNREADABLE, "utf-8")
    expect(page.locator("pre")).to_contain_text("there is no block `wirin`")
    file.write_text(WRONG, "utf-8")
    expect(page.locator("section.findings li")).to_have_count(1)
    keeps_its_place()
    expect(page.locator("#unfollowed")).to_be_hidden()
    assert following.end()[0] == 0
    expect(page.locator("#unfollowed")).to_be_visible()
    own = {f"request: {following.url}", f"request: {following.url}events"}
    strange = [one for one in watched.complaints if one not in own]
    assert all(any(words in one for words in OF_BROWSERS) for one in strange)
    page.context.close()
