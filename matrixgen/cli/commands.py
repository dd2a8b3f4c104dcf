"""Every command there is. To add one: a line here, and a file of that name beside this one.

The file defines `add_arguments(parser)` and `run(arguments) -> int`, which returns the exit
status: 0 fine, 1 findings, 2 bad use or unreadable input. It is imported only when its command is
given, so that no command waits for what another one needs. It may define `without_options(words)`
too, which returns the arguments where every word is plain, and so spares a quick command argparse.
"""

COMMANDS = {
    "check": "find every mistake in .keys files",
    "explain": "say what a finding means and what to do about it",
    "boards": "list the controllers, or one controller's pins",
    "fit": "before buying: which controllers and matrices a layout fits; writes a wiring",
    "new": "write a commented starter file that checks clean",
    "build": "write firmware, pin table, image and manifest, all or nothing",
}
"""Each command and its line in the help."""
