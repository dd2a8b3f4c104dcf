"""Rules on keys with a tap and a hold."""
