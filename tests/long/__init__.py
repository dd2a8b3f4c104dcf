"""The long run, and what belongs to it."""
