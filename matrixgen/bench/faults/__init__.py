"""A keyboard as the bench sees it, every fault that it may have, and what each would show."""
