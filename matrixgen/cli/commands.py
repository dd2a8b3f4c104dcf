"""Every command there is. To add one: a line here, and a file of that name beside this one.

The file, with `_` for `-`, defines `add_arguments(parser)` and `run(arguments) -> int`, which
returns the exit status: 0 fine, 1 findings, 2 bad use or unreadable input. It is imported only when
its command is given, so that no command waits for what another one needs. It may define
`without_options(words)` too, which returns the arguments where every word is plain, and so spares a
quick command argparse.
"""

COMMANDS = {
    "check": "find every mistake in .keys files",
    "fmt": "bring .keys files into their canonical form: blanks and line ends, no words",
    "explain": "say what a finding means and what to do about it",
    "figures": "show every electrical figure of a keyboard: formula, inputs, sources",
    "boards": "list the controllers, or one controller's pins",
    "rehearse": "play a keyboard without hardware: what each key does, in time",
    "fit": "before buying: which controllers and matrices a layout fits; writes a wiring",
    "learn": "press each key of a soldered board once: writes its wiring into the file",
    "probe": "press each key of a board once: what is wrong with it, and where to look",
    "new": "write a commented starter file that checks clean",
    "diff": "say what changed between two files, and whether it needs the soldering iron",
    "merge": "merge two versions of a file by what they say, as git's merge driver",
    "facts": "say what a file says, one fact a line",
    "git-setup": "have git merge and compare .keys files of this repository by what they say",
    "git-diff": "what git runs to compare two versions; by hand, use diff",
    "history": "say what each revision of a file in git changed, and whether that needs an iron",
    "build": "write firmware, bench sheet, pin table, image and manifest, all or nothing",
    "sheet": "draw the keyboard: a page to wire it by, with lists, from the front and behind",
    "show": "draw the plate and its layers in the terminal",
    "load": "load a keyboard, or an image, into a board: written, read back, started",
}
"""Each command and its line in the help."""
