"""What a page may run and style: only what it has itself, named by hash."""

from __future__ import annotations

import base64
import hashlib
import html
import re
from collections.abc import Iterable

_SCRIPT = re.compile(r"<script>(.*?)</script>", re.DOTALL)
"""A script that runs; those with a type hold data."""

_STYLE = re.compile(r"<style>(.*?)</style>", re.DOTALL)
_OF_ELEMENT = re.compile(r'<[^<>]*\sstyle="([^"]*)"')


def with_policy(text: str) -> str:
    """Return the page with a content policy that names its own scripts and styles by hash.

    Nothing else runs or styles anything. A style of one element, such as the colour of a wire, is
    named by its hash too, which `unsafe-hashes` allows. W3C, Content Security Policy Level 3,
    sections 2.3.1 and 6.7.3 (from memory).
    """
    scripts, rest = _SCRIPT.findall(text), _SCRIPT.sub("", text)
    styles = [*_STYLE.findall(rest), *map(html.unescape, _OF_ELEMENT.findall(rest))]
    text = text.replace("script-src SCRIPTS", f"script-src {_hashes(scripts)}", 1)
    return text.replace("style-src STYLES", f"style-src 'unsafe-hashes' {_hashes(styles)}", 1)


def _hashes(texts: Iterable[str]) -> str:
    """Return each text once as a content policy names it."""
    digests = (hashlib.sha256(one.encode("utf-8")).digest() for one in dict.fromkeys(texts))
    return " ".join(f"'sha256-{base64.b64encode(one).decode('ascii')}'" for one in digests)
