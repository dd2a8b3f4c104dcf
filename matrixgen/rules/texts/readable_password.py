"""# password that a key types

## What it does
Finds a name of the block `actions` that has a word such as `password`, `PIN` or `secret` in it,
where the action types something.

## Why it matters
What a key types can be read out of the image, out of the controller, and out of the file with all
of its history. And whoever presses the key types it.

## Example
```keys
keyboard "Pad"
  controller atmega32u4
  computer   us

actions
  my-password = type "correct horse"

layer base
  A = my-password
```

## Do instead
Keep passwords in a program for them, and let a key call that.
```keys
actions
  passwords   = Ctrl+Alt+P

layer base
  A = passwords
```
If it is not a secret, give the action another name, or write `allow readable-password my-password`.

## Reference
`grammar/README.md`, "One thing after the other".
"""

import re
from collections.abc import Iterator

from matrixgen.model import Action, Diagnostic, InTurn, Problem, Severity, with_parts
from matrixgen.rules.context import Context

PROBLEM = Problem("readable-password", Severity.WARNING, __doc__ or "")

SECRETS = frozenset(
    (
        *("password", "passwords", "passwd", "pwd", "passphrase", "passcode", "passkey"),
        *("pin", "pins", "secret", "secrets", "credentials", "passwort", "kennwort", "geheimnis"),
        *("motdepasse", "mdp", "contraseña", "clave", "senha", "wachtwoord", "lösenord", "hasło"),
    )
)
"""Words for what nobody else should know, in a few languages (a choice)."""

IN_PARTS = ("mot de passe",)
"""Those of several words."""

TYPING = 4
"""So many strokes without Ctrl, Alt or GUI are typed, not a shortcut: a PIN has four digits."""

SHIFTS = 0x22 | 0x40
"""Left Shift, right Shift and AltGr: modifiers that are held to type."""

WORD = re.compile(r"[^\W\d_]+")
CAPITAL = re.compile(r"(?<=[^\W\d_A-Z])(?=[A-Z])|(?<=[A-Z])(?=[A-Z][a-z])")


def check(context: Context) -> Iterator[Diagnostic]:
    """Yield each action with such a name that types something."""
    for named in context.keyboard.actions:
        if _is_secret(named.name.text) and any(map(_types, with_parts(named.action))):
            yield PROBLEM.at(
                named.name.span,
                f"`{named.name}` sounds like a secret, and whatever a key types can be read out "
                "of the image and of this file",
                help="keep secrets out of keyboards; if this is none, give it another name, or "
                f"write `allow {PROBLEM.slug} {named.name}`",
                about=[named.name.text],
            )


def _is_secret(name: str) -> bool:
    """Whether a name has a word for a secret: words part at `-`, `_`, digits and capitals."""
    words = [word.casefold() for word in WORD.findall(CAPITAL.sub("-", name))]
    return not SECRETS.isdisjoint(words) or any(one in " ".join(words) for one in IN_PARTS)


def _types(action: Action) -> bool:
    """Whether an action types a text, or so many keys that they may be one."""
    if not isinstance(action, InTurn):
        return False
    typed = [one for one in action.strokes if one.usage and not one.modifiers & ~SHIFTS]
    return action.types_text or len(typed) >= TYPING
