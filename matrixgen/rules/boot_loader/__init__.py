"""Rules on how the boot loader is entered."""
