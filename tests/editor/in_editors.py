"""Real editors, as they come from Debian, with the lines of `grammar/editors.md`.

`python -m tests.editor.in_editors` starts each of them without a screen: it opens a file with a
mistake, sees the finding at its place, corrects it, renames a key and formats the file; so does the
library that VS Code speaks the protocol by, which says whether each answer has its form. Then VS
Code's own reader of TextMate grammars, from npm, reads every example with ours, and what it takes
for words of the language, texts and comments is compared with the tree. A part of the long run.
"""

from __future__ import annotations

import json
import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Callable, Iterator, Sequence
from pathlib import Path

from matrixgen.editor.file_words import FileWords
from matrixgen.editor.kinds import kind_of
from matrixgen.model import SourceText
from matrixgen.model.layers import BASE
from matrixgen.source.phrases import FIRST_WORDS
from matrixgen.source.tree_reader import tree_of
from tests.editor.page import lines_for
from tests.patience import HANGS_S

ROOT = Path(__file__).parents[2]
DRIVES = Path(__file__).with_name("drives")
NPM = ("vscode-textmate@9", "vscode-oniguruma@2")
PAD = "plate\n  line Q   W\n\nlayer base\n  Q = hold layer nop\n"
EITHER = {BASE, *(word for word, phrase in FIRST_WORDS.items() if phrase.is_one_word)}
"""Words of the language that are names or cells as well."""

WANTED = ("finding unknown-layer 5 18", "plate|  line Fire W||layer base|  Fire = A")


def run(folder: Path, command: Sequence[str]) -> str:
    """What a program prints, with our own program on its search path, and a home of its own."""
    path = f"{Path(sys.executable).parent}{os.pathsep}{os.environ['PATH']}"
    own = {"PATH": path, "HOME": str(folder), "XDG_CONFIG_HOME": str(folder), "TERM": "dumb"}
    ran = subprocess.run(
        command,
        cwd=folder,
        env={**os.environ, **own},
        stdin=subprocess.DEVNULL,
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
        timeout=HANGS_S,
    )
    return ran.stdout


def install(folder: Path, *packages: str) -> None:
    """Put packages of npm into a folder."""
    quiet = ("--silent", "--no-audit", "--no-fund")
    subprocess.run(["npm", "install", *quiet, *packages], cwd=folder, check=True)


def neovim(folder: Path) -> str:
    (folder / "init.lua").write_text(lines_for("lua"), encoding="utf-8")
    drive = f"luafile {DRIVES / 'neovim.lua'}"
    return run(folder, ["nvim", "--headless", "-u", "init.lua", "-c", drive, "-c", "qa!"])


def vim(folder: Path) -> str:
    (folder / "own.vim").write_text(lines_for("vim"), encoding="utf-8")
    (folder / "syntax").mkdir()
    shutil.copy(ROOT / "grammar/keys.vim", folder / "syntax")
    settings = (
        f"set nocompatible hidden\nset runtimepath^={folder}\npackadd! ale\n"
        "let g:ale_set_highlights = 0\nsource own.vim\nfiletype plugin on\nsyntax on\n"
    )
    (folder / "rc.vim").write_text(settings, encoding="utf-8")
    command = ["vim", "-N", "-u", "rc.vim", "-i", "NONE", "-n", "-E", "-s", "-S"]
    said = run(folder, [*command, str(DRIVES / "vim.vim")])
    out = folder / "out.txt"
    return out.read_text(encoding="utf-8") if out.exists() else said


def emacs(folder: Path) -> str:
    (folder / "own.el").write_text(lines_for("elisp"), encoding="utf-8")
    return run(folder, ["emacs", "--batch", "-l", str(DRIVES / "emacs.el")])


def protocol(folder: Path) -> str:
    """VS Code's own library, which also says of each answer whether it is of the right form."""
    install(folder, "vscode-languageserver-protocol@3")
    shutil.copy(DRIVES / "protocol.js", folder)
    said = run(folder, ["node", "protocol.js", "matrixgen", "pad.keys"])
    return said if "not a " not in said else f"wrong: {said}"


EDITORS: dict[str, Callable[[Path], str]] = {
    "neovim": neovim,
    "vim": vim,
    "emacs": emacs,
    "VS Code's protocol library": protocol,
}


def told(editor: str) -> str | None:
    """What is wrong in an editor; None where all was as it should be."""
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        (folder / "pad.keys").write_text(PAD, encoding="utf-8")
        said = EDITORS[editor](folder)
    missing = [line for line in WANTED if line not in said or said.startswith("wrong")]
    return f"not {missing}: {said}" if missing else None


def scopes(folder: Path, files: Sequence[Path]) -> dict[str, list[list[list]]]:
    """What VS Code's reader makes of each line of some files: starts, ends and scopes."""
    install(folder, *NPM)
    shutil.copy(DRIVES / "tokens.js", folder)
    grammar = ROOT / "grammar/keys.tmLanguage.json"
    ran = subprocess.run(
        ["node", "tokens.js", str(grammar), *map(str, files)],
        cwd=folder,
        check=True,
        stdout=subprocess.PIPE,
        text=True,
    )
    made: dict[str, list[list[list]]] = json.loads(ran.stdout)
    return made


def wrongly_coloured(path: Path, lines: list[list[list]]) -> Iterator[str]:
    """Each word of a file that has another colour than it should have.

    A word of the language has that colour, and a key or a name has it not; texts and comments too.
    """
    text = path.read_text(encoding="utf-8")
    for one in FileWords(str(path), tree_of(SourceText(str(path), text))).all:
        if one.text in EITHER:
            continue
        start = one.span.column - 1
        found = {
            scope
            for first, last, names in lines[one.span.line - 1]
            if first <= start < last
            for scope in names
        }
        is_word = any(name.startswith("keyword") for name in found)
        kind = kind_of(one.terminal)
        right = {
            "word": is_word or one.terminal in ("COMMA", "EQUAL", "SEE_THROUGH"),
            "text": "string.quoted.double.keys" in found,
        }
        if not right.get(kind, not is_word and "comment.line.number-sign.keys" not in found):
            yield f"{path.name}:{one.span.line}:{one.span.column}: {one.text}: {sorted(found)}"


def main() -> int:
    wrong = 0
    for editor in EDITORS:
        told_of = told(editor)
        print(f"{editor}: {told_of or 'a finding, a rename and the form are as they should be'}")
        wrong += told_of is not None
    files = sorted(ROOT.glob("examples/*/*.keys"))
    with tempfile.TemporaryDirectory() as name:
        made = scopes(Path(name), files)
    each = [said for path in files for said in wrongly_coloured(path, made[str(path)])]
    print("\n".join(each))
    print(f"colours: {len(each)} words of {len(files)} examples have a wrong one")
    return 1 if wrong or each else 0


if __name__ == "__main__":
    sys.exit(main())
