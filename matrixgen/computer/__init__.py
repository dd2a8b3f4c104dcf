"""The computer that a keyboard types on: the layout that its file names, and its text.

What can be typed there is in `coverage.py`. Nothing is imported here: a check needs none of it.
"""
