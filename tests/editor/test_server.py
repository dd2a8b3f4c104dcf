"""The server as a program: what it sends, and that nothing an editor sends ends it."""

from __future__ import annotations

import asyncio
import json
import subprocess
import sys
from pathlib import Path

import pytest
from lsprotocol import types as lsp

from matrixgen.boards.builtin import builtin_document
from matrixgen.cli.main import main
from matrixgen.editor.addresses import path_of
from matrixgen.editor.pages import page_address
from tests.editor.editor import ROOT, Editor, run
from tests.patience import HANGS_S

HERON = ROOT / "examples/heron-12/heron-12.keys"
TEXT = HERON.read_text(encoding="utf-8")


def test_findings_follow_the_text_and_end_with_it():
    async def session(editor: Editor) -> None:
        uri = HERON.as_uri()
        editor.open(uri, TEXT)
        assert await editor.shown(uri, 1) == []
        editor.change(uri, TEXT.replace("plate\n", "plate\n  line \U0001d6d1 =\n"), 2)
        found = next(one for one in await editor.shown(uri, 2) if one.code == "syntax")
        assert (found.code, found.source, found.severity.name) == ("syntax", "matrixgen", "Error")
        assert (found.range.start.character, found.range.end.character) == (10, 11)
        editor.change(uri, TEXT, 3)
        assert await editor.shown(uri, 3) == []
        editor.close(uri)
        assert await editor.shown(uri, None) == []
        assert editor.errors == []

    run(session)


def test_a_profile_that_a_file_names_is_followed(tmp_path):
    """By the server alone: this editor is never asked about folders that it does not have open."""

    async def session(editor: Editor) -> None:
        uri, own = (tmp_path / "pad.keys").as_uri(), tmp_path / "own.json"
        own.write_text("{", "utf-8")
        editor.open(uri, TEXT.replace("at90usb162", '"own.json"'))
        assert [one.code for one in await editor.shown(uri, 1)] == ["unreadable-profile"]
        editor.findings.clear()
        own.write_text(json.dumps(builtin_document("at90usb162")), "utf-8")
        assert "unreadable-profile" not in [one.code for one in await editor.shown(uri, 1)]
        own.unlink()
        editor.findings.clear()
        assert [one.code for one in await editor.shown(uri, 1)] == ["unreadable-profile"]

    run(session)


def test_places_that_a_finding_speaks_of_are_related_and_its_page_is_linked():
    async def session(editor: Editor) -> None:
        uri = "untitled:Pad%20one"
        editor.open(uri, "plate\r\n  line A B\r\n  line A\r\n", 7)
        found = await editor.shown(uri, 7)
        (twice,) = [one for one in found if one.code == "duplicate-key"]
        (first,) = twice.related_information
        assert (first.location.uri, first.location.range.start.line) == (uri, 1)
        assert twice.message.splitlines()[1].startswith("help: ")
        page = Path(path_of(twice.code_description.href)).read_text("utf-8")
        assert page.startswith("# error[duplicate-key]") and "## Do instead" in page

    run(session)


def test_nothing_that_an_editor_sends_ends_the_server():
    async def session(editor: Editor) -> None:
        editor.is_odd, uri = True, "untitled:odd"
        editor.change(uri, "plate\n  line A\n", -5)  # was never opened
        await editor.shown(uri, -5)
        editor.close("file:///never/opened.keys")
        editor.open(uri, "plate\n", 3)
        editor.open(uri, "plate\n  line A\n", 3)  # again, with the same version
        far = lsp.Position(10**6, 10**6)
        part = lsp.TextDocumentContentChangePartial(lsp.Range(far, lsp.Position(0, 0)), "plate\n#")
        one = lsp.VersionedTextDocumentIdentifier(2, uri)
        editor.text_document_did_change(lsp.DidChangeTextDocumentParams(one, [part]))
        assert {found.code for found in await editor.shown(uri, 2)}
        writer = editor._server.stdin
        for body in (b"{", b'{"jsonrpc": "2.0", "id": 1, "method": "no/such"}', b"[]", b'"\xff"'):
            writer.write(b"Content-Length: %d\r\n\r\n%b" % (len(body), body))
        lone = {"uri": uri, "languageId": "keys", "version": 9, "text": "plate\n  line \ud800\n"}
        body = {
            "jsonrpc": "2.0",
            "method": "textDocument/didOpen",
            "params": {"textDocument": lone},
        }
        data = json.dumps(body).encode()
        writer.write(b"Content-Length: %d\r\n\r\n%b" % (len(data), data))
        assert [found.code for found in await editor.shown(uri, 9)] == ["not-utf8"]
        editor.change(uri, TEXT, 10)
        await editor.shown(uri, 10)

    run(session)


def test_a_later_text_ends_the_check_of_an_earlier_one():
    async def session(editor: Editor) -> None:
        uri = HERON.as_uri()
        versions = []
        editor.open(uri, TEXT)
        for version in range(2, 30):
            editor.change(uri, TEXT + "\n" * version, version)
        while True:
            await editor.shown(uri, editor.findings[uri].version if uri in editor.findings else 29)
            versions.append(editor.findings[uri].version)
            if versions[-1] == 29:
                break
            await asyncio.sleep(0.01)
        assert versions == sorted(versions)

    run(session)


def test_a_pipe_that_closes_ends_the_server():
    command = [sys.executable, "-m", "matrixgen", "language-server", "--stdio"]
    ended = subprocess.run(command, input=b"", capture_output=True, timeout=HANGS_S, cwd=ROOT)
    assert (ended.returncode, ended.stdout, ended.stderr) == (1, b"", b"")


def test_without_the_library_the_command_says_how_to_get_it(monkeypatch, capsys):
    find = "matrixgen.cli.language_server.find_spec"
    monkeypatch.setattr(find, lambda name: None)
    assert main(["language-server"]) == 2
    said = capsys.readouterr().err
    assert "needs the Python package `pygls`" in said
    assert "pip install 'matrixgen[editor]'" in said


@pytest.mark.parametrize("address", ["file:///C:/pads/my%20pad.keys", "untitled:Untitled-1", "x"])
def test_an_address_of_any_kind_has_a_name(address):
    assert path_of(address)


def test_a_page_is_what_explain_prints_and_is_left_out_where_it_cannot_be_written(
    tmp_path, monkeypatch, capsys
):
    monkeypatch.setattr("matrixgen.editor.pages.cache_folder", lambda: tmp_path / "kept")
    written = page_address.__wrapped__("syntax")
    assert main(["explain", "syntax"]) == 0
    assert Path(path_of(written)).read_text("utf-8") == capsys.readouterr().out
    Path(path_of(written)).write_text("of an earlier release", "utf-8")
    assert page_address.__wrapped__("syntax") == written
    assert "earlier" not in Path(path_of(written)).read_text("utf-8")
    assert page_address.__wrapped__("no-such-finding") is None
    (tmp_path / "a file").touch()
    monkeypatch.setattr("matrixgen.editor.pages.cache_folder", lambda: tmp_path / "a file")
    assert page_address.__wrapped__("syntax") is None
