"""Rules on where the switches sit."""
