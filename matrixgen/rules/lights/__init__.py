"""Rules on lights: their current, and what they show."""
