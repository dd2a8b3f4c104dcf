"""Every command there is. To add one: a line here, and a file of that name beside this one.

The file, with `_` for `-`, defines `add_arguments(parser)` and `run(arguments) -> int`, which
returns the exit status: 0 fine, 1 errors, 2 bad use or unreadable input. It is imported only when
its command is given, so that no command waits for what another one needs. It may define
`without_options(words)` too, which returns the arguments where every word is plain, and so spares a
quick command argparse.
"""

COMMANDS = {
    "check": "find every mistake in .keys files; --fix fixes what is unambiguous",
    "fmt": "write .keys files in their canonical form: spacing and line ends change, words do not",
    "language-server": "serve an editor: findings as you type, completion, names, fixes",
    "explain": "explain a finding and how to fix it",
    "help": "print a section of the language's reference, or describe a command",
    "completion": "print what bash, zsh or fish runs to complete these command lines with Tab",
    "figures": "show every electrical figure of a keyboard, with formula, inputs and sources",
    "boards": "list the controllers, or one controller's pins",
    "layouts": "list the layouts of computers, or draw what one types, and where systems differ",
    "rehearse": "play a keyboard without hardware: what each key does, and when",
    "fit": "list the controllers and matrices that a plate fits, and write a wiring",
    "learn": "write the wiring of a wired keyboard into its file, as its keys and knobs show it",
    "probe": "find the faults of a wired keyboard, from one press of each key",
    "new": "write a commented starter file that checks clean, or the plate of a drawing",
    "diff": "show what changed between two files, and whether it needs the soldering iron",
    "merge": "merge two versions of a file by their meaning, as git's merge driver",
    "facts": "list the facts in a file, one per line",
    "git-setup": "have git merge and compare the .keys files of this repository by their meaning",
    "git-diff": "compare two versions, as git asks for it; by hand, use diff",
    "history": "list what each revision in git changed, and whether it needs the soldering iron",
    "build": "write firmware, bench sheet, pin table, image and manifest, all or nothing",
    "plate": "draw the plate to be cut (DXF, SVG), or model it to be printed (3MF, STL)",
    "legends": "draw what stands on each keycap, at its true size",
    "sheet": "draw the bench sheet: a page to wire the keyboard by, with drawings and lists",
    "show": "draw the plate and its layers in the terminal",
    "load": "load a keyboard or an image into a controller, read it back and start it",
}
"""Each command and its line in the help."""
