"""What to press, hold or measure next, so that fewer explanations are left."""
