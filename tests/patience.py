"""How long a test waits before it says that something hangs."""

HANGS_S = 300
"""A limit that a busy computer does not come near: no test may depend on how fast it is."""
