"""Rules on knobs: what their steps do."""
