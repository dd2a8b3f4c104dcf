"""A file's bytes as text, or what is wrong with them."""

from __future__ import annotations

from pathlib import Path

from matrixgen.model.diagnostic import Diagnostic
from matrixgen.model.reason import helps_of, reason_of
from matrixgen.model.text import SourceText, Span
from matrixgen.reach import read_argument
from matrixgen.reading import TooLarge
from matrixgen.source.limits import Limits
from matrixgen.source.problems import problem

SIGNS = ",=+"
"""Signs that part words without a space."""


def load_text(path: str, text: str | None, limits: Limits) -> SourceText | Diagnostic:
    """Return the file at `path`, or `text` as if it stood there; a finding if it is no text."""
    if text is not None:
        return _checked(path, _bytes_of(text), limits)
    try:
        data = read_argument(Path(path), limits.file_bytes)
    except TooLarge:
        return _too_large(path, limits)
    except (OSError, ValueError) as error:
        return problem("unreadable-file").at(
            Span.start_of(path),
            f"`{path}` cannot be read: {_reason(error)}",
            help=helps_of(error) or _meant(Path(path)),
        )
    return _checked(path, data, limits)


def _checked(path: str, data: bytes, limits: Limits) -> SourceText | Diagnostic:
    if len(data) > limits.file_bytes:
        return _too_large(path, limits)
    try:
        text = data.decode("utf-8")
    except UnicodeDecodeError as error:
        return _not_utf8(path, data, error)
    if len(data) > limits.words and words_of(text) > limits.words:
        message = f"`{path}` has more than {limits.words:,} words and signs"
        return problem("over-the-limit").at(Span.start_of(path), message)
    return SourceText(path, text)


def words_of(text: str) -> int:
    """Return how many words and signs a text has, about: what reading it takes grows with them."""
    return len(text.split()) + sum(map(text.count, SIGNS)) - text.count(" = ")


def _too_large(path: str, limits: Limits) -> Diagnostic:
    message = f"`{path}` has more than {limits.file_bytes} bytes"
    return problem("over-the-limit").at(Span.start_of(path), message)


def _bytes_of(text: str) -> bytes:
    """Return the bytes that a text was decoded from, those that were not UTF-8 included."""
    try:
        return text.encode("utf-8", "surrogateescape")
    except UnicodeEncodeError:
        return text.encode("utf-8", "surrogatepass")


def _not_utf8(path: str, data: bytes, error: UnicodeDecodeError) -> Diagnostic:
    before = SourceText(path, data[: error.start].decode("utf-8")).text
    line, column = before.count("\n") + 1, len(before) - before.rfind("\n")
    return problem("not-utf8").at(
        Span.in_line(path, line, column, 1),
        f"byte 0x{data[error.start]:02X} is not valid UTF-8",
        help="save the file as UTF-8 in your editor",
    )


def _meant(path: Path) -> str | None:
    """Return the help that names a .keys file: of that name, or in the folder of that name."""
    for near in (
        (path.with_name(f"{path.name}.keys"), path / f"{path.name}.keys") if path.name else ()
    ):
        try:
            is_there = near.is_file()
        except (OSError, ValueError):
            continue
        if is_there:
            return f"there is a file `{near}`"
    return None


def _reason(error: OSError | ValueError) -> str:
    """Return why a file cannot be read, in a few lower-case words."""
    if isinstance(error, FileNotFoundError):
        return "there is no such file"
    if isinstance(error, IsADirectoryError):
        return "it is a folder"
    return reason_of(error)
