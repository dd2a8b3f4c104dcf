"""From edits to changes in words, a file a subject."""
