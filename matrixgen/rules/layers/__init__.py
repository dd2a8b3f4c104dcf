"""Rules on what turns layers on and off."""
