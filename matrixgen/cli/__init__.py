"""The commands: thin, each in its own file, listed in `commands.py`."""
