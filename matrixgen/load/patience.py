"""How long a load waits for what, in seconds; all are planning figures without a source."""

APPEARS = 60.0
"""For a board that is to be plugged in, or put into its boot loader by hand."""

RESTARTS = 8.0
"""For a board that restarts by itself; a common loader then waits 8 s for an image."""

GOES = 15.0
"""For a drive to go once it has its image."""

TYPES = 6.0
"""For the keyboard to come up on USB after its image was loaded."""

LOOKS = 0.1
"""Between two looks at what is plugged in."""
