"""`--watch`: what is served, to whom, and what a save does; the program is ended with Ctrl+C."""

from __future__ import annotations

import http.client
import json
import os
import re
import signal
import socket
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import pytest

from matrixgen.boards.builtin import builtin_document
from matrixgen.cli.page_server import PageServer, ShownPage
from matrixgen.emit.sheet.followed import words_page
from tests.patience import HANGS_S
from tests.terminal import CTRL_C, Terminal
from tests.texts import GOOD

PAGE = words_page("pad.keys", "nothing yet")
WRONG = GOOD.replace("PB1", "PB0")
UNREADABLE = GOOD.replace("wiring\n", "wirin\n")


@pytest.fixture
def server() -> Iterator[PageServer]:
    with PageServer(ShownPage(PAGE), 0) as server:
        threading.Thread(target=server.serve_forever, args=(0.01,), daemon=True).start()
        yield server
        server.shutdown()


def answer_to(
    server: PageServer, path: str, *headers: tuple[str, str], method: str = "GET"
) -> tuple[int, bytes, http.client.HTTPMessage]:
    """Ask with these headers alone: no client adds a host of its own."""
    asked = http.client.HTTPConnection(*server.server_address[:2], timeout=HANGS_S)
    asked.putrequest(method, path, skip_host=True, skip_accept_encoding=True)
    for name, value in headers:
        asked.putheader(name, value)
    asked.endheaders()
    answer = asked.getresponse()
    found = answer.status, answer.read(), answer.headers
    asked.close()
    return found


def test_the_page_is_served_on_the_loopback_address_alone(server):
    assert server.server_address[0] == "127.0.0.1"
    status, page, headers = answer_to(server, server.path, ("Host", server.host))
    assert (status, page) == (200, server.shown.page)
    assert headers["Cache-Control"] == "no-store"
    assert headers["Cross-Origin-Resource-Policy"] == "same-origin"
    assert "frame-ancestors 'none'" in headers["Content-Security-Policy"]
    assert "Access-Control-Allow-Origin" not in headers


def test_its_own_origin_may_ask(server):
    own = (("Host", server.host), ("Origin", f"http://{server.host}"))
    assert answer_to(server, server.path, *own)[0] == 200


@pytest.mark.parametrize("path", ["", "events"])
@pytest.mark.parametrize(
    "headers",
    [
        (),
        (("Host", "keys.example"),),
        (("Host", "localhost:PORT"),),
        (("Host", "127.0.0.1"),),
        (("Host", "127.0.0.1:PORT"), ("Host", "keys.example")),
        (("Host", "127.0.0.1:PORT"), ("Origin", "http://keys.example")),
        (("Host", "127.0.0.1:PORT"), ("Origin", "https://127.0.0.1:PORT")),
        (("Host", "127.0.0.1:PORT"), ("Origin", "null")),
        (
            ("Host", "127.0.0.1:PORT"),
            ("Origin", "http://127.0.0.1:PORT"),
            ("Origin", "http://keys.example"),
        ),
    ],
    ids=lambda headers: " ".join(":".join(one) for one in headers) or "no host",
)
def test_another_host_or_origin_is_refused(server, path, headers):
    port = str(server.server_address[1])
    asked = [(name, value.replace("PORT", port)) for name, value in headers]
    status, said, _ = answer_to(server, server.path + path, *asked)
    assert status == 403 and b"nothing yet" not in said


@pytest.mark.parametrize("path", ["/", "/events", "OWNother", "/OWN/", "..OWN", "OWN../etc/passwd"])
def test_another_path_is_not_found(server, path):
    asked = path.replace("OWN", server.path)
    assert answer_to(server, asked, ("Host", server.host))[0] == 404


def test_a_path_is_another_one_each_time_and_long(server):
    with PageServer(ShownPage(PAGE), 0) as other:
        assert other.path != server.path
        assert re.fullmatch(r"/[\w-]{20,}/", server.path)


@pytest.mark.parametrize("method", ["POST", "PUT", "OPTIONS", "HEAD"])
def test_nothing_but_get_is_answered(server, method):
    assert answer_to(server, server.path, ("Host", server.host), method=method)[0] == 501


def test_what_is_drawn_late_does_not_replace_what_is_newer():
    shown = ShownPage(PAGE)
    shown.show(b"second", turn=2)
    shown.show(b"first, in full", turn=1)
    assert shown.page == b"second"


class Following:
    """`matrixgen sheet FILE --watch` as a process, and its stream as a browser gets it."""

    def __init__(self, file: Path, *words: str, **settings: str) -> None:
        command = (sys.executable, "-m", "matrixgen", "sheet", str(file), "--watch", *words)
        self.process = subprocess.Popen(
            command,
            stdout=subprocess.PIPE,
            stderr=subprocess.PIPE,
            text=True,
            env={**os.environ, **settings},
        )
        assert self.process.stdout
        first = self.process.stdout.readline()
        self.url = first.split()[0]
        assert first == f"{self.url} follows {file}; Ctrl+C ends it\n"
        self.host, _, path = self.url.removeprefix("http://").partition("/")
        self.path = f"/{path}"
        self._events = self._ask("events")

    def __enter__(self) -> Following:
        return self

    def __exit__(self, *_: object) -> None:
        """End what a failed test has left."""
        self._events.close()
        self.process.kill()
        self.process.communicate()

    def _ask(self, more: str = "") -> http.client.HTTPResponse:
        asked = http.client.HTTPConnection(self.host, timeout=HANGS_S)
        asked.request("GET", self.path + more)
        answer = asked.getresponse()  # closes the connection with itself: the server keeps none
        assert answer.status == 200
        return answer

    @property
    def page(self) -> str:
        with self._ask() as answer:
            return answer.read().decode("utf-8")

    def wait_for(self, *parts: str) -> str:
        """Return the page once it has all these, looking at it after each event."""
        assert self._events.headers["Content-Type"] == "text/event-stream"
        while True:
            line = self._events.readline().decode()
            assert line, "the stream has ended"
            if line.startswith("data: "):
                page = self.page
                if all(part in page for part in parts):
                    return page

    def end(self) -> tuple[int, str, str]:
        self.process.send_signal(signal.SIGINT)
        out, err = self.process.communicate(timeout=HANGS_S)
        return self.process.returncode, out, err


LIVE = '"engine":"'


def test_a_page_follows_its_file_through_all_that_editors_do(tmp_path):
    file = tmp_path / "pad.keys"
    with Following(file) as following:  # a file that is not there yet
        following.wait_for("there is no such file")
        file.write_text(GOOD, "utf-8")
        page = following.wait_for("<title>Pad: bench sheet</title>", LIVE)
        assert "connect-src 'self'" in page
        file.write_text(WRONG, "utf-8")
        following.wait_for("<code>pin-used-twice</code>", "marked !1 at")
        file.write_text(UNREADABLE, "utf-8")
        following.wait_for("Nothing can be drawn", "there is no block `wirin`")
        aside = tmp_path / "aside"
        aside.write_text(GOOD.replace('"Pad"', '"Moved"'), "utf-8")
        aside.replace(file)  # as editors save
        following.wait_for("<title>Moved: bench sheet</title>")
        file.unlink()
        following.wait_for("there is no such file")
        for number in range(10):
            file.write_text(GOOD.replace('"Pad"', f'"Pad {number}"'), "utf-8")
        following.wait_for("<title>Pad 9: bench sheet</title>")
        file.write_bytes(b"\xff\xfe")
        following.wait_for("Nothing can be drawn")
        status, out, err = following.end()
        assert (status, err) == (0, "")
        lines = out.splitlines()
        assert any(
            line.startswith(f"{file}:7: error[unknown-block]: there is no") for line in lines
        )
        assert all(line.startswith(str(file)) or not line for line in lines)
        assert list(tmp_path.iterdir()) == [file], "nothing is written"


ENDLESS = """import os, pathlib, sys, time
if "--version" not in sys.argv:
    folder = pathlib.Path(os.environ["ZIG_LOCAL_CACHE_DIR"])
    pathlib.Path(os.environ["STARTED"]).write_text(str(os.getpid()))
    for number in range(1_000_000):
        try:
            (folder / str(number % 100)).mkdir(parents=True, exist_ok=True)
            (folder / str(number % 100) / str(number)).touch()
        except OSError:  # removed just then: mkdir says so in several ways
            pass
"""


def test_a_compiler_that_outlives_the_end_leaves_no_traceback(tmp_path):
    """As zig's own processes do for a moment: they write into the folder that is being removed."""
    package, started = tmp_path / "ziglang", tmp_path / "started"
    package.mkdir()
    (package / "__init__.py").touch()
    (package / "__main__.py").write_text(ENDLESS, "utf-8")
    file = tmp_path / "pad.keys"
    file.write_text(GOOD, "utf-8")
    settings = {"PYTHONPATH": str(tmp_path), "STARTED": str(started), "TMPDIR": str(tmp_path)}
    with Following(file, XDG_CACHE_HOME=str(tmp_path / "cache"), **settings) as following:
        while not started.exists():
            time.sleep(0.01)
        status, _, err = following.end()
        os.kill(int(started.read_text()), signal.SIGKILL)
    assert (status, err) == (0, "")


def test_a_save_that_changes_nothing_draws_the_same_page(tmp_path):
    """Which is why nobody is told of it: two pages that show the same have one name."""
    file = tmp_path / "pad.keys"
    file.write_text(WRONG, "utf-8")
    with Following(file) as following:
        first = following.wait_for("pin-used-twice")
        file.write_text(WRONG + "# a remark\n", "utf-8")
        file.write_text(WRONG.replace('"Pad"', '"Other"'), "utf-8")
        following.wait_for("<title>Other")
        file.write_text(WRONG, "utf-8")
        assert following.wait_for("<title>Pad") == first
        assert following.end()[0] == 0


def test_of_several_controllers_one_has_to_be_named(tmp_path):
    file = tmp_path / "pad.keys"
    two = WRONG.replace("atmega32u4", "atmega32u4, rp2040-40pin")
    file.write_text(two.replace("PD0", "PD0, GP0").replace("PB0", "PB0, GP1"), "utf-8")
    with Following(file) as following:
        page = following.wait_for("choose one with --controller NAME")
        assert "`atmega32u4` and `rp2040-40pin`" in page
        assert following.end()[0] == 0


def test_a_port_in_use_is_said_in_a_line(program):
    program.write("pad.keys")
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        ran = program("sheet", "pad.keys", "--watch", "--port", str(port))
    assert ran.status == 2 and ran.out == ""
    assert ran.err == (
        f"matrixgen: port {port} cannot be used: address already in use\n"
        "    help: without --port, a free port is taken\n"
    )


@pytest.mark.parametrize(
    ("words", "said"),
    [
        (("sheet", "pad.keys", "--port", "8000"), "`--port` is for the page of `--watch`"),
        (("sheet", "pad.keys", "--watch", "-o", "out.html"), "`--watch` writes no file"),
        (("sheet", "pad.keys", "--watch", "--svg"), "`--watch` writes no file"),
        (("sheet", "-", "--watch"), "standard input cannot be followed"),
        (("show", "-", "--watch"), "standard input cannot be followed"),
        *(
            (("sheet", "pad.keys", "--watch", "--port", port), f"`{port}` is not a port")
            for port in ("0", "65536", "x", "0000000080", "99999999999999999999", "²")
        ),
    ],
    ids=lambda value: " ".join(value) if isinstance(value, tuple) else "",
)
def test_bad_use(program, words, said):
    program.write("pad.keys")
    ran = program(*words)
    assert ran.status == 2 and said in ran.err and "Traceback" not in ran.err
    assert [path.name for path in program.folder.iterdir()] == ["pad.keys"]


def test_a_terminal_is_drawn_again_at_each_save(tmp_path):
    file, own = tmp_path / "pad.keys", tmp_path / "own.json"
    file.write_text(GOOD, "utf-8")
    terminal = Terminal("show", str(file), "--watch")
    terminal.wait_for("layer base", "A", "B")
    file.write_text(UNREADABLE, "utf-8")
    terminal.wait_for("there is no block `wirin`")
    assert "layer base" not in terminal.text, "the screen was cleared"
    file.write_text(f"{GOOD}\nlayer base\n  B = Escape\n", "utf-8")
    terminal.wait_for("layer base", "Esc")
    file.write_text(GOOD.replace("atmega32u4", '"own.json"'), "utf-8")
    terminal.wait_for("no such file")
    own.write_text("{", "utf-8")
    terminal.wait_for("is not JSON")
    own.write_text(json.dumps(builtin_document("atmega32u4")), "utf-8")
    terminal.wait_for("layer base", "A", "B")
    terminal.type(CTRL_C)
    assert terminal.status() == 0
    assert b"Traceback" not in terminal.said
