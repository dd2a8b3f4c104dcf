"""What types one letter or sign, or a text, by the computer's layout."""

from __future__ import annotations

import unicodedata
from typing import TYPE_CHECKING

from matrixgen.model.actions import InTurn, Press, Typed
from matrixgen.source.letters import composed, unquoted

if TYPE_CHECKING:
    from matrixgen.layouts import HostLayout
    from matrixgen.model.text import Span
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Token


def read(scope: Scope, token: Token) -> Press | InTurn | None:
    """Return what makes one letter or sign appear: a press, or after a dead key two in turn."""
    sign, span = unquoted(composed(token)), scope.reporter.span(token)
    way = scope.letters.way_of_cell(sign)
    if way is None:
        assert scope.letters.layout
        report_untypable(scope, scope.letters.layout, sign, span)
        return None
    if len(way) > 1:
        return InTurn((Typed(sign, way),))
    return Press(way[0].usage, way[0].modifiers)


def report_untypable(scope: Scope, layout: HostLayout, sign: str, span: Span) -> None:
    """Report a letter or sign that the layout has no way to type, or no common one."""
    name = unicodedata.name(sign, "").lower()
    said = f"`{sign}`{f' ({name})' if name else ''}"
    if layout.system is None and layout.has_somewhere(sign):
        scope.reporter.report(
            "untypable-sign",
            span,
            f"{said} is typed in another way on each system",
            help=f"name the computer's, as in `computer {layout.name} on windows`",
        )
        return
    on = f" on {layout.system}" if layout.system else ""
    scope.reporter.report(
        "untypable-sign",
        span,
        f"the layout `{layout.name}` has no way to type {said}{on}",
        help=f"`matrixgen layouts '{layout.name}'` shows what it has",
    )
