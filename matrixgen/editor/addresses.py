"""The addresses by which an editor names files, and the paths that they stand for (RFC 8089)."""

from __future__ import annotations

import sys
from pathlib import Path, PurePath, PurePosixPath
from urllib.parse import unquote, urlsplit


def path_of(address: str) -> str:
    """Return the path of a file, or for what is in no file, such as `untitled:Pad`, its name."""
    try:
        parts = urlsplit(address)
    except ValueError:  # such as an odd host
        return address
    if parts.scheme.casefold() != "file":
        return unquote(parts.path or parts.netloc) or address
    path = unquote(parts.path)
    if sys.platform == "win32":
        share = f"//{parts.netloc}" if parts.netloc else ""
        return str(PurePath(share + path if share else path.lstrip("/")))
    return str(PurePosixPath(path))


def is_file(address: str) -> bool:
    """Whether an address is that of a file."""
    return address[:5].casefold() == "file:"


def folder_of(address: str) -> Path:
    """Return the folder from which a file names others: for what is in no file, the current one."""
    return Path(path_of(address)).parent if is_file(address) else Path()


def address_of(path: str) -> str:
    """Return the address of a file."""
    return Path(path).absolute().as_uri()
