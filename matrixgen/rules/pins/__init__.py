"""Rules on where each wire ends."""
