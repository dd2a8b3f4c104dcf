"""The bench firmware on its serial port: its lines, presses, and what it says of itself."""
