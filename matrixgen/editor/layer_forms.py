"""A layer as a list or as a picture, and a phrase of a list by a name from the block `actions`."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from matrixgen.editor.cures import EditOffered
from matrixgen.editor.file_words import FileWords, WordAt
from matrixgen.editor.open_file import OpenText
from matrixgen.editor.rewriting import edits_to
from matrixgen.format.formatted import formatted
from matrixgen.model import SourceText
from matrixgen.model.meaning import meaning_of
from matrixgen.source.blocks.pictures import SEE_THROUGH
from matrixgen.source.letters import name_of_key
from matrixgen.source.tree import BlockTree


def layer_actions(text: OpenText, line: int) -> Iterator[EditOffered]:
    """Yield what can be done to the layer on a line; what it means stays the same."""
    block = _layer_at(text, line)
    if block is None or text.read.design is None:
        return
    words = text.words
    rules = {one.rule for one in block.statements}
    if rules == {"picture_line"}:
        yield from _made(text, block, _as_list(words, block), "write this layer as a list")
    elif rules == {"entries"}:
        yield from _made(text, block, _as_picture(words, block), "write this layer as a picture")
        yield from _named_phrases(text, words, line)


def _layer_at(text: OpenText, line: int) -> BlockTree | None:
    blocks = [one for one in text.tree.blocks if one.header.line <= line]
    return blocks[-1] if blocks and blocks[-1].header.rule == "layer" else None


def _own(words: FileWords, block: BlockTree) -> list[WordAt]:
    lines = {one.line for one in block.statements}
    return [one for one in words.all if one.statement.line in lines]


def _as_list(words: FileWords, block: BlockTree) -> list[str] | None:
    cells = [one.text for one in _own(words, block)]
    if len(cells) != len(words.keys):
        return None
    at, lines = iter(cells), []
    for keys in words.plate_lines:
        said = [f"{key} = {cell}" for key in keys if (cell := next(at)) != SEE_THROUGH]
        lines += [f"  {'  '.join(said)}"] * bool(said)
    return lines


def _as_picture(words: FileWords, block: BlockTree) -> list[str] | None:
    said = {name_of_key(key): phrase for key, phrase in _entries(_own(words, block))}
    if any(len(phrase) != 1 for phrase in said.values()):
        return None
    cells = {key: phrase[0].text for key, phrase in said.items()}
    rows = ([cells.get(key, SEE_THROUGH) for key in keys] for keys in words.plate_lines)
    return [f"  {' '.join(row)}" for row in rows]


def _made(
    text: OpenText, block: BlockTree, body: list[str] | None, title: str
) -> Iterator[EditOffered]:
    """Yield a layer's new body, if no comment stands in it and the file means the same."""
    if not body or any(one.comments for one in block.statements):
        return
    lines = list(text.source.lines)
    lines[block.statements[0].line - 1 : block.statements[-1].last_line] = body
    yield from _if_same(text, "\n".join(lines), title)


def _if_same(text: OpenText, new: str, title: str) -> Iterator[EditOffered]:
    """Yield a new text in the file's form, if it means the same."""
    new = _formed(text, new)
    after = text.read_as(new).design
    before = text.read.design
    if after and before and meaning_of(after) == meaning_of(before):
        yield EditOffered(title=title, edits=tuple(edits_to(text.source, new)))


def _formed(text: OpenText, new: str) -> str:
    """Return a new text in the canonical form, if the file has it."""
    if formatted(text.source).text != text.source.original:
        return new
    return formatted(SourceText(text.source.path, new)).text or new


def _named_phrases(text: OpenText, words: FileWords, line: int) -> Iterator[EditOffered]:
    """Yield a name for each phrase of more than one word on a line of a list."""
    own = (one for one in words.all if one.statement.line == line and one.rule == "entries")
    for key, phrase in _entries(own):
        if len(phrase) < 2:
            continue
        name = _free_name(words, phrase)
        said = " ".join(one.text for one in phrase).replace(" ,", ",")
        new = _with_action(text, words, line, phrase, name, said)
        after = text.read_as(new).design
        if after is not None:
            title = f"name what `{key}` does `{name}`, in the block `actions`"
            yield EditOffered(title=title, edits=tuple(edits_to(text.source, new)))


def _entries(words: Iterable[WordAt]) -> Iterator[tuple[str, list[WordAt]]]:
    """Yield each key of a list as it is written, with the words of what it does."""
    key, phrase = "", list[WordAt]()
    for one in words:
        if one.terminal == "KEY":
            if key:
                yield key, phrase
            key, phrase = one.text, []
        elif one.text != "=":
            phrase.append(one)
    if key:
        yield key, phrase


def _free_name(words: FileWords, phrase: list[WordAt]) -> str:
    """Return a name that no action has yet: the words of the phrase, joined."""
    taken = {one.casefold() for one in words.texts("ACTION_NAME", "CELL", "KEY")}
    plain = [one.text.casefold() for one in phrase if one.text.isalnum()]
    stem = "-".join(plain)[:40].strip("-") or "action"
    names = [stem, *(f"{stem}-{number}" for number in range(2, 100))]
    return next(name for name in names if name not in taken and "-" in name)


def _with_action(
    text: OpenText, words: FileWords, line: int, phrase: list[WordAt], name: str, said: str
) -> str:
    first, last = phrase[0].span, phrase[-1].span
    lines = list(text.source.lines)
    now = lines[first.line - 1]
    lines[first.line - 1] = now[: first.column - 1] + name + now[last.end_column - 1 :]
    entry = f"  {name} = {said}"
    headers = [one.header for one in text.tree.blocks if one.header.rule == "actions"]
    if headers:
        lines.insert(headers[0].line, entry)
    else:
        layer = next(one.header for one in text.tree.blocks if one.header.rule == "layer")
        lines[layer.line - 1 : layer.line - 1] = ["actions", entry, ""]
    return _formed(text, "\n".join(lines))
