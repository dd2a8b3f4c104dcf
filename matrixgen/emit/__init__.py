"""From a checked keyboard to files: the firmware tree, the pin table, the manifest."""
