"""The runs that pages quote are what the program prints: `pytest --refresh` writes them anew."""

import io
import sys

import pytest

from matrixgen.cli.main import main
from tests.rehearse.quotes import CHECKOUT, PAGES, quotes_of, renewed

PAD = "```keys\nplate\n  line A B\n```\n"
RUN = '```rehearse\n$ echo "B" | matrixgen rehearse pad.keys\n'


@pytest.fixture
def printed(tmp_path, monkeypatch, capsys):
    def run(quote):
        path = tmp_path / "quoted.keys"
        path.write_text(quote.text, "utf-8")
        monkeypatch.setattr(sys, "stdin", io.TextIOWrapper(io.BytesIO(quote.steps.encode())))
        capsys.readouterr()
        status = main(["rehearse", str(path)])
        said = capsys.readouterr()
        assert (status, said.err) == (0, ""), f"{quote.command}: {said.err}"
        return said.out

    return run


@pytest.mark.parametrize("name", PAGES)
def test_each_run_that_a_page_quotes_is_what_is_printed(name, printed, request):
    path = CHECKOUT / name
    page = path.read_text("utf-8")
    if request.config.getoption("--refresh"):
        path.write_text(renewed(page, printed), "utf-8")
        page = path.read_text("utf-8")
    for quote in quotes_of(page):
        assert printed(quote) == quote.output, quote.command


def test_two_pages_quote_runs_and_no_page_quotes_them_otherwise():
    assert {"grammar/README.md", "matrixgen/rehearse/README.md"} <= set(PAGES)
    for name in PAGES:
        text = (CHECKOUT / name).read_text("utf-8")
        assert text.count("```rehearse") == len(list(quotes_of(text))), name


def test_a_wrong_quote_is_seen_and_renewed(printed):
    page = f"{PAD}{RUN}     0 ms  + B  A\n```\n"
    (wrong,) = quotes_of(page)
    assert printed(wrong) != wrong.output
    (right,) = quotes_of(renewed(page, printed))
    assert printed(right) == right.output
    assert right.output.startswith("     0 ms  + B  B\n     0 ms       report: B down\n")


def test_a_quote_without_a_command_is_refused():
    with pytest.raises(AssertionError, match="no command of the form"):
        list(quotes_of(f"{PAD}```rehearse\n0 ms\n```\n"))
