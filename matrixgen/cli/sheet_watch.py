"""`matrixgen sheet FILE --watch`: the page follows the file while it is edited."""

from __future__ import annotations

import argparse
import gc
import queue
import threading
from collections.abc import Callable

from matrixgen.boards import Mounted
from matrixgen.cli.complain import FINE, complain
from matrixgen.cli.fit_to_print import clean
from matrixgen.cli.page_server import PageServer, ShownPage
from matrixgen.cli.printer import Printer
from matrixgen.cli.wanted import drawn_for
from matrixgen.emit.sheet import Sheet
from matrixgen.emit.sheet.followed import words_page
from matrixgen.failure import Failure
from matrixgen.jobs.examine import STANDARD_INPUT, Examined
from matrixgen.jobs.follow import examined_saves
from matrixgen.jobs.followed_sheet import SheetMaker
from matrixgen.model import Design
from matrixgen.model.prose import counted
from matrixgen.model.reason import reason_of

LAST_WAIT_S = 1
"""How long the end waits for a compiler that was ended with it, so that nothing is left behind."""

Summary = Callable[[Sheet], str]


def watch(arguments: argparse.Namespace, summary: Summary) -> int:
    """Serve the page of a file, and draw it again at each save, until Ctrl+C; return the status."""
    if arguments.file == STANDARD_INPUT:
        return complain("standard input cannot be followed", "name a file")
    shown = ShownPage(words_page(arguments.file, "It is being read."))
    try:
        server = PageServer(shown, arguments.port or 0)
    except OSError as error:
        why = f"port {arguments.port} cannot be used: {reason_of(error)}"
        return complain(why, "without --port, a free port is taken")
    gc.enable()  # it lives long
    following = _Following(arguments, shown, summary)
    with server:
        threading.Thread(target=server.serve_forever, daemon=True).start()
        try:
            print(f"{server.url} follows {clean(arguments.file)}; Ctrl+C ends it", flush=True)
            following.follow()
        except KeyboardInterrupt:
            print()
        following.end()
        server.shutdown()
    return FINE


class _Following:
    """Draws at each save: a picture at once, then what takes long beside it, newest save first."""

    def __init__(self, arguments: argparse.Namespace, shown: ShownPage, summary: Summary) -> None:
        self._arguments, self._shown, self._summary = arguments, shown, summary
        self._maker = SheetMaker()
        self._rest: queue.SimpleQueue[Callable[[], None] | None] = queue.SimpleQueue()
        self._beside = threading.Thread(target=self._make_the_rest, daemon=True)

    def follow(self) -> None:
        """Draw the file now and at each save; never ends."""
        self._beside.start()
        for turn, examined in enumerate(examined_saves(self._arguments.file)):
            self._say(self._drawn(examined, turn))

    def end(self) -> None:
        """End what is made beside."""
        self._rest.put(None)
        self._beside.join(LAST_WAIT_S)

    def _drawn(self, examined: Examined, turn: int) -> str:
        """Show what can be of one save; return what the terminal says of it."""
        design = examined.design
        if design is None:
            printer = Printer(examined.texts)
            self._show_words("\n\n".join(map(printer.render, examined.findings)), turn)
            return _first_of(examined)
        try:
            mounted = drawn_for(self._arguments, examined)
        except Failure as failure:
            why = "; ".join((failure.text, *failure.helps))
            self._show_words(why, turn)
            return f"{self._arguments.file}: {why}"
        return self._draw(examined, design, mounted, turn)

    def _draw(self, examined: Examined, design: Design, mounted: Mounted | None, turn: int) -> str:
        """Show what is there at once; leave what takes long, and its summary, for later."""

        def draw_whole() -> None:
            whole = self._maker.whole(examined, design, mounted)
            self._shown.show(whole.page, turn)
            self._say(f"{self._arguments.file}: {self._summary(whole.sheet)}")

        drawn = self._maker.at_once(examined, design, mounted)
        self._shown.show(drawn.page, turn)
        if drawn.is_whole:
            return f"{self._arguments.file}: {self._summary(drawn.sheet)}"
        self._rest.put(draw_whole)
        return f"{self._arguments.file}: drawn; {drawn.waits_for}"

    def _say(self, line: str) -> None:
        print(clean(line) + "\n", end="", flush=True)  # in one piece: two threads print

    def _show_words(self, words: str, turn: int) -> None:
        self._shown.show(words_page(self._arguments.file, words), turn)

    def _make_the_rest(self) -> None:
        while make := self._rest.get():
            while not self._rest.empty():
                make = self._rest.get()  # only the newest is still wanted
                if make is None:
                    return
            make()


def _first_of(examined: Examined) -> str:
    """Return the first error in a line, and how many more findings there are."""
    found = examined.errors[0]
    more = len(examined.findings) - 1
    rest = f", and {counted(more, 'finding')} more on the page" if more else ""
    return f"{found.span.path}:{found.span.line}: error[{found.slug}]: {found.message}{rest}"
