"""Rules on keys that are one action together."""
