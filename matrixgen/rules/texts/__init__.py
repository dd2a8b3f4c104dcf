"""Rules on letters, and on what keys type in turn."""
