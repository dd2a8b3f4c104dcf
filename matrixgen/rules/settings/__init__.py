"""Rules on times and allowances."""
