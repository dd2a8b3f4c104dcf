"""Rules on keys that do one thing or another, by modifiers or by how often they are pressed."""
