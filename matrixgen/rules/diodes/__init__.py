"""Rules on which way the current can go."""
