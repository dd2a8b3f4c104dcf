"""A git repository of a test's own: no settings of this computer's, and times that stand still."""

from __future__ import annotations

import subprocess
import tempfile
from pathlib import Path

from tests.pages import CHECKOUT
from tests.texts import GOOD

FIRST_MIDNIGHT = 1704067200
"""2024-01-01 00:00 in UTC: a day's first second, which a bare date has to include."""

ENVIRONMENT = {
    "TZ": "UTC",
    "GIT_CONFIG_NOSYSTEM": "1",
    "GIT_CONFIG_GLOBAL": "/dev/null",
    "GIT_AUTHOR_NAME": "Somebody",
    "GIT_AUTHOR_EMAIL": "somebody@example.org",
    "GIT_COMMITTER_NAME": "Somebody",
    "GIT_COMMITTER_EMAIL": "somebody@example.org",
    "GIT_CEILING_DIRECTORIES": f"{tempfile.gettempdir()}:/tmp:/var/tmp",
    "GIT_EDITOR": "true",
    "GIT_PAGER": "cat",
    "PYTHONPATH": str(CHECKOUT),
}
"""What git and its drivers get: they run this checkout."""

FOREIGN = ("GIT_DIR", "GIT_WORK_TREE", "GIT_INDEX_FILE", "GIT_PREFIX", "GIT_EXTERNAL_DIFF")


class Repository:
    """A repository in a folder, and git in it; each commit is a day later than the last one."""

    def __init__(self, folder: Path, monkeypatch) -> None:
        self.folder = folder
        self._monkeypatch = monkeypatch
        self._day = 0
        folder.mkdir(exist_ok=True)
        self("init", "-q", "-b", "main")

    def __call__(self, *words: str, fails: bool = False, text: bool = True) -> str | bytes:
        """Run git; return what it printed, errors included where it may fail."""
        ran = subprocess.run(["git", *words], cwd=self.folder, capture_output=True, check=False)
        assert fails or not ran.returncode, (words, ran.stdout, ran.stderr)
        out = ran.stdout + (ran.stderr if fails else b"")
        return out.decode() if text else out

    def write(self, name: str, text: str | bytes = GOOD) -> Path:
        path = self.folder / name
        path.parent.mkdir(parents=True, exist_ok=True)
        path.write_bytes(text.encode() if isinstance(text, str) else text)
        return path

    def read(self, name: str) -> str:
        return (self.folder / name).read_bytes().decode()

    def save(self, name: str, text: str | bytes = GOOD, subject: str = "A change") -> None:
        """Write a file, and commit all that is there."""
        self.write(name, text)
        self.commit(subject)

    def commit(self, subject: str = "A change") -> None:
        """Commit all that is there."""
        self._day += 1
        date = f"{FIRST_MIDNIGHT + 86400 * self._day} +0000"
        self._monkeypatch.setenv("GIT_AUTHOR_DATE", date)
        self._monkeypatch.setenv("GIT_COMMITTER_DATE", date)
        self("add", "-A")
        self("commit", "-q", "--allow-empty", "-m", subject)
