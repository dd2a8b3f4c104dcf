"""Clusters of the plate: each with a corner of its own, or the mirror image of another one."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.diagnostic import Note
from matrixgen.model.plate import Cluster, Key, Mirror, PlateLine
from matrixgen.model.prose import counted
from matrixgen.record import changed
from matrixgen.source.blocks.millimetres import place, position
from matrixgen.source.names import CLUSTER, Names
from matrixgen.source.reporter import Reporter, every_token, tokens, trees

if TYPE_CHECKING:
    from matrixgen.source.syntax import Node


class Clusters:
    """The clusters of a plate as they are read, and which lines belong to each."""

    def __init__(self, reporter: Reporter) -> None:
        self._reporter = reporter
        self._names = Names(reporter, CLUSTER)
        self._lines: dict[str, list[PlateLine]] = {}
        self._without_original: set[str] = set()
        self.found: list[Cluster] = []

    @property
    def open(self) -> Cluster | None:
        """The cluster that the next line belongs to; None for the plate itself."""
        return self.found[-1] if self.found else None

    def start(self, statement: Node) -> Cluster:
        """Begin a cluster; the lines after it belong to it."""
        one = self._mirrored(statement) if statement.data == "mirrored" else self._own(statement)
        self._names.define(one.name)
        self._lines.setdefault(one.name.text, [])
        self.found.append(one)
        return one

    def add(self, line: PlateLine) -> None:
        """Take in a line of the open cluster."""
        if self.open:
            self._lines[self.open.name.text].append(line)

    def _own(self, statement: Node) -> Cluster:
        name, *numbers = every_token(statement)
        x, y = place(self._reporter, numbers[:2])
        turned = [self._reporter.number_in(one, -360, 360, "this angle") for one in numbers[2:]]
        return Cluster(
            name=self._reporter.word(name),
            x=x,
            y=y,
            turned=turned[0].value if turned else 0.0,
            mirror=None,
            place=self._reporter.span(numbers[0]).to(self._reporter.span(numbers[-1])),
            span=self._reporter.whole(statement),
        )

    def _mirrored(self, statement: Node) -> Cluster:
        name, of, about = tokens(statement)
        reporter, original = self._reporter, self._named(str(of))
        middle = position(reporter, about)
        if original is None:
            self._without_original.add(str(name))
        if original is None and not reporter.was_dropped(of):
            reporter.report(
                "unknown-cluster",
                reporter.span(of),
                f"there is no cluster `{of}` above",
                help=self._names.similar_help(of),
            )
        return Cluster(
            name=reporter.word(name),
            x=2 * middle - original.x if original else 0.0,
            y=original.y if original else 0.0,
            turned=-original.turned if original else 0.0,
            mirror=Mirror(reporter.word(of), middle),
            place=reporter.span(about),
            span=reporter.whole(statement),
        )

    def _named(self, name: str) -> Cluster | None:
        return next((one for one in self.found if one.name.text == name), None)

    def mirror_image(self, statement: Node, number: int, keys: list[Key]) -> list[Key] | None:
        """Return a line of a mirrored cluster: its keys, in the places of the other's.

        None where it has no image, which is reported: too many lines, too many or too few keys, or
        places of its own.
        """
        cluster = self.open
        assert cluster and cluster.mirror
        if self._has_places(statement, cluster):
            return None
        if cluster.name.text in self._without_original:
            return keys
        originals = self._lines[cluster.mirror.of.text]
        if number >= len(originals):
            self._report_shape(statement, f"`{cluster.mirror.of}` has {_lines(originals)}", None)
            return None
        original = originals[number]
        if len(keys) != len(original.keys):
            have, want = counted(len(keys), "key"), len(original.keys)
            self._report_shape(statement, f"{have} here for {want}", original)
            return None
        pairs = zip(reversed(original.keys), keys, strict=True)
        return [_mirrored_key(other, key, cluster) for other, key in pairs]

    def _has_places(self, statement: Node, cluster: Cluster) -> bool:
        sized = [token for token in tokens(statement) if token.type in ("SIZE", "GAP")]
        spans = [self._reporter.span(token) for token in sized]
        spans += [self._reporter.whole(part) for part in trees(statement)]
        if spans:
            self._reporter.report(
                "mirror-shape",
                min(spans),
                f"`{cluster.name}` is a mirrored copy, so the other cluster gives its positions",
                help="write only the names of its keys, from left to right",
            )
        return bool(spans)

    def _report_shape(self, statement: Node, what: str, original: PlateLine | None) -> None:
        assert self.open
        self._reporter.report(
            "mirror-shape",
            self._reporter.whole(statement),
            f"{what}, so `{self.open.name}` cannot be its mirrored copy",
            help="a mirrored cluster has as many lines, and in each as many keys, as the other one",
            notes=[Note("this line is mirrored", original.span)] if original else [],
        )

    def check_heights(self) -> None:
        """Report the mirrored clusters that have fewer lines than what they mirror."""
        for cluster in self.found:
            is_known = cluster.name.text not in self._without_original
            if not cluster.mirror or not is_known or not self._reporter.is_whole:
                continue
            have, want = self._lines[cluster.name.text], self._lines[cluster.mirror.of.text]
            if len(have) < len(want):
                self._reporter.report(
                    "mirror-shape",
                    cluster.span,
                    f"`{cluster.name}` has {_lines(have)}, and `{cluster.mirror.of}` {len(want)}",
                    help="a mirrored cluster has a line for each line of the other one",
                    notes=[Note("this line has no copy", want[len(have)].span)],
                )


def _lines(lines: list[PlateLine]) -> str:
    return counted(len(lines), "line")


def _mirrored_key(key: Key, named: Key, cluster: Cluster) -> Key:
    assert cluster.mirror
    about = cluster.mirror.about
    return changed(
        named,
        x=2 * about - key.x - key.width,
        y=key.y,
        width=key.width,
        height=key.height,
        turned=-key.turned,
        pivot_x=2 * about - key.pivot_x,
        pivot_y=key.pivot_y,
    )
