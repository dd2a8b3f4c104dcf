"""`tap ACTION, hold ACTION`, and what decides between the two."""

from __future__ import annotations

from typing import TYPE_CHECKING

from matrixgen.model.actions import Action, HoldLayer, TapHold, starts_boot_loader
from matrixgen.source.phrases.decisions import decisions_of
from matrixgen.source.phrases.layer_name import layer_named
from matrixgen.source.phrases.phrase import Phrase
from matrixgen.source.statements.cures import with_unit, with_unit_before
from matrixgen.source.statements.statement import Lesson

if TYPE_CHECKING:
    from lark import Token

    from matrixgen.source.parser import Node
    from matrixgen.source.phrases.scope import Scope

_FORM = "write `tap ACTION, hold ACTION`, as in `tap A, hold Shift` or `tap A, hold layer nav`"
_MORE = "what may follow is `after N ms`, `by time`, `by press`, `by release`, `roll N ms` and "
_MORE += "`other hand`, each after a comma"
_BY = "write `by time`, `by press` or `by release`"


def _broken(*phrases: str) -> tuple[str, ...]:
    return tuple(f"actions\n  both = {phrase}\n" for phrase in phrases)


def _time(word: str, example: str) -> tuple[Lesson, ...]:
    """Return the lessons for a decision of a number and its unit."""
    help = f"write a number and its unit, as in `{example}`"
    return (
        Lesson(
            message=f"expected the time of `{word}`, found `{{found}}`",
            help=help,
            broken=_broken(f"tap A, hold B, {word}", f"tap A, hold B, {word} long"),
        ),
        Lesson(
            message=f"the time `{{found}}` of `{word}` has no unit `ms`",
            help=help,
            broken=_broken(f"tap A, hold B, {word} 180"),
            cure=with_unit("ms"),
        ),
        Lesson(
            message=f"the time of `{word}` before `{{found}}` has no unit `ms`",
            help=help,
            broken=_broken(f"tap A, hold B, {word} 180, by press"),
            cure=with_unit_before("ms"),
        ),
        Lesson(
            message="expected the unit `ms`, found `{found}`",
            help=help,
            broken=_broken(f"tap A, hold B, {word} 1 s"),
        ),
    )


def read(scope: Scope, phrase: Node) -> TapHold | None:
    """Return the action; report parts that make no sense, and what is said of it twice."""
    tap, hold, *decisions = phrase.children
    tapped, held = _part(scope, tap), _part(scope, hold)
    options = decisions_of(scope, decisions)
    if tapped is None or held is None or options is None:
        return None
    return TapHold(tapped, held, **options)


def _part(scope: Scope, said: Token | Node) -> Action | None:
    """Return what a tap or a hold does; report what cannot be half of a key."""
    if not isinstance(said, str) and said.data == "held":
        return HoldLayer(layer_named(scope, said))
    if isinstance(said, str) and said in scope.with_two_meanings:
        _report_unfit(scope, said, f"`{said}` has a tap and a hold of its own")
        return None
    action = scope.action_of(said)
    if action is not None and starts_boot_loader(action):
        _report_unfit(scope, said, "the boot loader cannot start by a tap or a hold")
        return None
    return action


def _report_unfit(scope: Scope, said: Token | Node, message: str) -> None:
    reporter = scope.reporter
    span = reporter.span(said) if isinstance(said, str) else reporter.whole(said)
    reporter.report(
        "unfit-tap-or-hold",
        span,
        message,
        help="a tap and a hold each do one thing, at once: give the other a key of its own",
    )


PHRASE = Phrase(
    rule="tap_hold",
    behaviour=TapHold,
    form="tap ACTION, hold ACTION",
    first_word="tap",
    read=read,
    lessons=(
        Lesson(
            message="nothing that a tap could do follows `{found}`",
            help=_FORM,
            broken=(*_broken("tap"), "layer a\n  A = tap\n"),
        ),
        Lesson(
            message="`{found}` is not something that a tap can do",
            help=_FORM,
            broken=_broken("tap ~", "tap , hold B", "tap (A), hold B"),
            types=True,
        ),
        Lesson(
            message="the key has a tap and no hold after `{found}`",
            help=_FORM,
            broken=(*_broken("tap A"), "layer a\n  A = tap B\n"),
        ),
        Lesson(
            message="expected `, hold`, found `{found}`",
            help=_FORM,
            broken=(*_broken("tap A hold B", "tap A = B"), "layer a\n  A = tap B hold C\n"),
        ),
        Lesson(
            message="the word `hold` is missing after `{found}`",
            help=_FORM,
            broken=_broken("tap A,"),
        ),
        Lesson(
            message="expected the word `hold`, found `{found}`",
            help=_FORM,
            broken=_broken("tap A, Ctrl", "tap A, layer nav", "tap A, after 180 ms, hold B"),
        ),
        Lesson(
            message="nothing that a hold could do follows `{found}`",
            help=_FORM,
            broken=(*_broken("tap A, hold"), "layer a\n  A = tap B, hold\n"),
        ),
        Lesson(
            message="`{found}` is not something that a hold can do",
            help=_FORM,
            broken=_broken("tap A, hold ~", "tap A, hold , by press", "tap A, hold (B)"),
            types=True,
        ),
        Lesson(
            message="`{found}` names no layer",
            help=_FORM,
            broken=_broken("tap A, hold layer"),
        ),
        Lesson(
            message="nothing follows the comma of `{found}`",
            help=_MORE,
            broken=_broken("tap A, hold B,"),
        ),
        Lesson(
            message="`{found}` does not decide between tap and hold",
            help=_MORE,
            broken=(
                *_broken("tap A, hold B, fast", "tap A, hold B, 180 ms", "tap A, hold B, hold C"),
                "layer a\n  A = tap B, hold C, D = E\n",
            ),
        ),
        *_time("after", "after 180 ms"),
        *_time("roll", "roll 50 ms"),
        Lesson(
            message="nothing that decides follows `{found}`",
            help=_BY,
            broken=_broken("tap A, hold B, by"),
        ),
        Lesson(
            message="`{found}` decides nothing",
            help=_BY,
            broken=_broken("tap A, hold B, by hand", "tap A, hold B, by tap"),
        ),
        Lesson(
            message="`{found}` is not followed by the word `hand`",
            help="write `other hand` if only a key of the other hand turns it into a hold",
            broken=_broken("tap A, hold B, other"),
        ),
        Lesson(
            message="expected the word `hand`, found `{found}`",
            help="write `other hand` if only a key of the other hand turns it into a hold",
            broken=_broken("tap A, hold B, other side", "tap A, hold B, other, by press"),
        ),
    ),
)
