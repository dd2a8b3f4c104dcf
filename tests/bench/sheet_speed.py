"""What the bench sheet costs: `python -m tests.bench.sheet_speed`.

Whole processes of `matrixgen sheet`, with the keyboard's engine kept from a run before, beside
`matrixgen check` of the same file, taken in turn; the first run, which has to compile the engine,
once; the size of each page. Then in Chromium: the first paint of each page, and the time from a
key's press by the pointer to the report's line on the page, with five milliseconds of debounce
switched off by the firmware itself (a press counts at its first reading).
"""

from __future__ import annotations

import os
import statistics
import tempfile
from functools import partial
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

from tests.bench.check_speed import with_byte_code
from tests.bench.processes import medians, process_seconds
from tests.browser.browsers import ARGUMENTS, CHROMIUM
from tests.examples.shipped import FOLDER, NAMES, example

ROUNDS, PRESSES = 9, 30

FIRST_PAINT = "performance.getEntriesByName('first-contentful-paint')[0].startTime"

PRESS_TO_LINE = """async (key) => {
    const board = await pressIt.board;
    const log = document.querySelector("[data-press=log]");
    const button = document.querySelector(`[data-press=area] [data-key="${CSS.escape(key)}"]`);
    const line = new Promise((done) =>
        new MutationObserver(() => done(performance.now())).observe(log, { childList: true }));
    const begin = performance.now();
    board.fingers.hold("bench", key);
    const end = await line;
    board.fingers.letGo("bench");
    await new Promise((done) => setTimeout(done, 60));
    return end - begin;
}"""


def processes(folder: Path) -> None:
    environment = with_byte_code(folder / "byte-code") | {"XDG_CACHE_HOME": str(folder / "cache")}
    print(f"cold processes, median of {ROUNDS}; in brackets the first, which compiles the engine")
    for name in NAMES:
        file, page = str(FOLDER / name / f"{name}.keys"), folder / f"{name}.html"
        controller = ("--controller", example(name).profile.name)
        sheet = ("-m", "matrixgen", "sheet", file, "-o", str(page), *controller)
        first = process_seconds(*sheet, environment=environment)
        commands = {"sheet": sheet, "check": ("-m", "matrixgen", "check", file)}
        middles = medians(commands, partial(process_seconds, environment=environment), ROUNDS)
        drawn, checked = middles["sheet"], middles["check"]
        print(
            f"  {name:<14} {page.stat().st_size / 1000:5.0f} kB  {drawn * 1e3:6.0f} ms "
            f"({first:.1f} s)  {drawn / checked:4.1f} x check"
        )


def in_chromium(folder: Path, page: Page) -> None:
    print(f"in Chromium: first paint; from a press to the report's line, median of {PRESSES}")
    for name in NAMES:
        page.goto((folder / f"{name}.html").as_uri())
        page.wait_for_function("document.querySelector('[data-press=live]').hidden === false")
        key = next(k.name.text for k in example(name).keyboard.keys if k.own_action)
        taken = [page.evaluate(PRESS_TO_LINE, key) for _ in range(PRESSES)]
        paint = page.evaluate(FIRST_PAINT)
        print(
            f"  {name:<14} {paint:5.0f} ms  {statistics.median(taken):5.1f} ms, "
            f"at most {max(taken):.1f} ms"
        )


def main() -> None:
    with tempfile.TemporaryDirectory() as made, sync_playwright() as playwright:
        folder = Path(made)
        processes(folder)
        browser = playwright.chromium.launch(executable_path=CHROMIUM, args=list(ARGUMENTS))
        in_chromium(folder, browser.new_page())
        browser.close()


if __name__ == "__main__":
    os.environ.setdefault("PYTHONHASHSEED", "0")
    main()
