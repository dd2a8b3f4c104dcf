"""The layer that a phrase names."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.layers import BASE
from matrixgen.source.reporter import tokens

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node, Token


def known_layer(scope: Scope, token: Token) -> str:
    """Return the name of a layer; report one that is not there."""
    reporter = scope.reporter
    if token not in scope.layers and not reporter.was_dropped(token):
        reporter.report(
            "unknown-layer",
            reporter.span(token),
            f"there is no layer `{token}`",
            help=reporter.similar_help(token, scope.layers),
        )
    return str(token)


def layer_named(scope: Scope, phrase: Node) -> str:
    """Return the layer that a phrase ends with; report one that is not there or always on."""
    token, reporter = tokens(phrase)[-1], scope.reporter
    name = known_layer(scope, token)
    if name == BASE:
        reporter.report(
            "layer-always-on",
            reporter.span(token),
            "`base` is always on, so a key cannot turn it on",
            help="name the layer that the key is for",
        )
    return name
