"""Rules on which wire visits which key."""
