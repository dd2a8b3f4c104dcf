"""The plate as it is cut: its outline and everything that goes through it, in millimetres."""
