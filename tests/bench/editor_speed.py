"""How long an editor waits for findings after an edit: `python -m tests.bench.editor_speed`.

A server of its own, as an editor starts it; each edit is one of a file of 104 keys, as it is made
while typing: letters of a cell, a wire's key and its pin, a mistake and its correction, a new line
at the top. `waited` is wall-clock time from sending the text to having its findings; `worked` is
processor time of the server's main thread, which other programs do not lengthen (Linux alone tells
it). Beside it stands an import of lark in a new process of the same run.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Iterator

from tests.bench.processes import process_seconds, worked
from tests.editor.editor import ROOT, Editor, run

FILE = ROOT / "examples/goosander-104/goosander-104.keys"
ROUNDS = 40


def texts(text: str) -> Iterator[tuple[str, str]]:
    """Kinds of edits, and the texts after them."""
    cell = text.rindex("= ") + 2
    wire = text.index("\n", text.index("\n  row ") + 1)
    pin = text.index(" on ", text.index("\n  row ")) + 4
    for number in range(ROUNDS):
        other = "EHIKLN"[number % 6]
        yield "a cell", f"{text[:cell]}F{number % 12 + 1}  # {text[cell:]}"
        yield "a word half written", f"{text[:cell]}Ctr{other} # {text[cell:]}"
        yield "an unreadable line", f"{text[:cell]}hold {other}{number} # {text[cell:]}"
        yield "a pin", f"{text[:pin]}X{other}{number} {text[pin:]}"
        yield "a wire's key", f"{text[:wire]} {other}{text[wire:]}"
        yield "a line at the top", "# note\n" * (number % 7 + 1) + text
        yield "as it was", text


async def session(editor: Editor) -> None:
    text, uri = FILE.read_text(encoding="utf-8"), FILE.as_uri()
    editor.open(uri, text)
    await editor.shown(uri, 1)
    taken: dict[str, list[tuple[float, float]]] = {}
    for version, (kind, now) in enumerate(texts(text), 2):
        begin, before = time.perf_counter(), worked(editor._server.pid)
        editor.change(uri, now, version)
        await editor.shown(uri, version)
        taken.setdefault(kind, []).append(
            (time.perf_counter() - begin, worked(editor._server.pid) - before)
        )
    lark = statistics.median(process_seconds("-c", "import lark") for _ in range(7))
    print(f"an edit of a file of 104 keys to its findings, {ROUNDS} of each kind:")
    everything = [one for some in taken.values() for one in some]
    for kind, times in [*taken.items(), ("all", everything)]:
        shown = [f"{kind:<20}"]
        for name, seconds in zip(("waited", "worked"), zip(*times, strict=True), strict=True):
            middle, worst = statistics.median(seconds) * 1e3, max(seconds) * 1e3
            shown.append(f"{name} {middle:6.1f} ms, at worst {worst:6.1f} ms")
        print("  " + "  ".join(shown))
    print(f"  {'to import lark':<20} {lark * 1e3:6.1f} ms")


def main() -> None:
    run(session)


if __name__ == "__main__":
    main()
