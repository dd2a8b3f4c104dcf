"""The one canonical form of a .keys file: the same words, with other blanks and line ends."""
