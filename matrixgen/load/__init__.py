"""An image into a board: over a serial line, or onto a drive."""
