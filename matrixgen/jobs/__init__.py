"""Whole jobs that a command asks for, made of the rooms below."""
