"""What explains all that was seen, in words, and the file that would be right for it."""
