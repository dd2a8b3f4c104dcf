"""The layer that a phrase names."""

from __future__ import annotations

from collections.abc import Callable
from typing import TYPE_CHECKING

from matrixgen.model.actions import Action
from matrixgen.model.layers import BASE
from matrixgen.model.text import Word
from matrixgen.source.names import is_layer
from matrixgen.source.phrases.phrase import ReadPhrase
from matrixgen.source.reporter import tokens

if TYPE_CHECKING:
    from matrixgen.source.phrases.scope import Scope
    from matrixgen.source.syntax import Node


def known_layer(scope: Scope, phrase: Node) -> Word:
    """Return the layer that a phrase ends with; report one that is not there."""
    name = scope.reporter.word(tokens(phrase)[-1])
    is_layer(scope.reporter, name, scope.layers)
    return name


def layer_named(scope: Scope, phrase: Node) -> str:
    """Return the layer that a phrase ends with; report one that is not there or always on."""
    name = known_layer(scope, phrase)
    if name.text == BASE:
        scope.reporter.report(
            "layer-always-on",
            name.span,
            "`base` is always on, so a key cannot turn it on",
            help="name the layer that the key is for",
        )
    return name.text


def of_layer(behaviour: Callable[[str], Action]) -> ReadPhrase:
    """Return what reads a phrase that ends with the layer which it turns on."""
    return lambda scope, phrase: behaviour(layer_named(scope, phrase))
